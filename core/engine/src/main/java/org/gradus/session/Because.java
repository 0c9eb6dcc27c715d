package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.answer.Filled;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * The rule behind a verdict.
 *
 * @param rule its id
 * @param text the rule as it stands in the file
 * @param filled its condition with the numbers filled in; empty for a rule without one
 * @param reason the reason that the file gives, or that the session gives where no rule does
 * @param instruction what the file says to do, or empty
 * @param source where the rule comes from
 */
public record Because(
    String rule,
    String text,
    Optional<Filled> filled,
    Optional<Message> reason,
    String instruction,
    Citation source) {
  public Because {
    requireNonNull(reason, "reason");
    requireNonNull(filled, "filled");
    requireNonNull(instruction, "instruction");
    requireNonNull(rule, "rule");
    requireNonNull(source, "source");
    requireNonNull(text, "text");
  }

  /** The reason in English, or as the file gives it; empty when there is none. */
  public String why() {
    return reason.map(Message::toString).orElse("");
  }

  /** The reason, else the rule itself, to be said in any language. */
  public Message message() {
    return reason.orElseGet(() -> Message.of(Joined.ALONE, text));
  }

  /** The reason, else the rule itself, in English or as the file gives it. */
  public String shortly() {
    return message().toString();
  }

  @Override
  public String toString() {
    return rule + ": " + text + filled.map(numbers -> " | " + numbers).orElse("");
  }
}
