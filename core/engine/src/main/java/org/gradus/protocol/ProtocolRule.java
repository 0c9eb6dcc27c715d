package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Rule;
import org.gradus.rule.syntax.Action;

/**
 * A rule of a protocol with what belongs to it.
 *
 * @param id its name within the protocol
 * @param rule the rule itself
 * @param why the reason to show, or empty
 * @param instruction what to do, or empty
 * @param source where it comes from
 * @param confirm for how long a second reading is waited for before the rule counts, if it is
 * @param stagesOnly whether it is looked at in stages only, not in recovery
 * @param then what follows a stop
 * @param alarming whether a stop means that something may be wrong with the person: the signs that
 *     it asks for have to go before recovery ends, and there is no training plan until the person
 *     has been cleared for exercise
 * @param suspicion what is suspected, for a rule that looks at results
 */
public record ProtocolRule(
    String id,
    Rule rule,
    String why,
    String instruction,
    Citation source,
    Optional<Duration> confirm,
    boolean stagesOnly,
    Then then,
    boolean alarming,
    Optional<Suspicion> suspicion) {
  public ProtocolRule {
    requireNonNull(confirm, "confirm");
    requireNonNull(id, "id");
    requireNonNull(instruction, "instruction");
    requireNonNull(rule, "rule");
    requireNonNull(source, "source");
    requireNonNull(suspicion, "suspicion");
    requireNonNull(then, "then");
    requireNonNull(why, "why");
  }

  /** What follows a stop. */
  public enum Then {
    /** The load is taken away at once. */
    REST,
    /** The load is lowered and the person keeps moving. */
    COOL_DOWN
  }

  /** What it recommends; the type is for the engine and its tools. */
  @SuppressWarnings("exports")
  public Action action() {
    return rule.action();
  }

  /** Whether it ends the exercise at once. */
  public boolean isStop() {
    return action() instanceof Action.Stop;
  }

  /** Whether it ends the exercise because it has served its purpose. */
  public boolean isFinish() {
    return action() instanceof Action.Finish;
  }

  /** Whether it ends something, for one reason or the other. */
  public boolean ends() {
    return isStop() || isFinish();
  }
}
