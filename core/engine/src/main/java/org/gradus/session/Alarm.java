package org.gradus.session;

import java.util.Optional;
import java.util.Set;

/**
 * A stop rule that held.
 *
 * @param rule its id
 * @param verdict what it recommends
 * @param because the rule with its numbers as they were
 * @param firmness whether the readings could have flipped it
 * @param behind the one that was kept before and is less urgent; it is back once this is overridden
 */
record Alarm(
    String rule, Verdict.Stop verdict, Because because, Firmness firmness, Optional<Alarm> behind) {

  /** What stands for a rule where the time for a decision is over. */
  static final String UNDECIDED = "undecided";

  /** Whether it is given for want of a decision, and by no rule. */
  boolean isUndecided() {
    return rule.equals(UNDECIDED);
  }

  /** What is left of kept stops without those of some rules. */
  static Optional<Alarm> without(Set<String> rules, Optional<Alarm> kept) {
    return kept.flatMap(
        alarm -> {
          Optional<Alarm> behind = without(rules, alarm.behind());
          return rules.contains(alarm.rule()) ? behind : Optional.of(alarm.before(behind));
        });
  }

  private Alarm before(Optional<Alarm> other) {
    return new Alarm(rule, verdict, because, firmness, other);
  }
}
