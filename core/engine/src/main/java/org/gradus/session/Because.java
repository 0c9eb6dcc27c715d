package org.gradus.session;

import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.answer.Filled;

/**
 * The rule behind a verdict.
 *
 * @param rule its id
 * @param text the rule as it stands in the file
 * @param filled its condition with the numbers filled in; empty for a rule without one
 * @param why the reason the file gives, or empty
 * @param instruction what the file says to do, or empty
 * @param source where the rule comes from
 */
public record Because(
    String rule,
    String text,
    Optional<Filled> filled,
    String why,
    String instruction,
    Citation source) {

  /** The reason the file gives, else the rule itself. */
  public String shortly() {
    return why.isEmpty() ? text : why;
  }

  @Override
  public String toString() {
    return rule + ": " + text + filled.map(numbers -> " | " + numbers).orElse("");
  }
}
