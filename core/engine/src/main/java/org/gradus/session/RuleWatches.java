package org.gradus.session;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.protocol.ProtocolRule;

/**
 * What is remembered of the rules that can end something. Immutable.
 *
 * @param byRule by the id of the rule, if there is something to remember
 * @param alarm the stop that held and has not been answered
 * @param alarmed whether an alarming stop applied when the exercise, or the test, was ended
 */
record RuleWatches(Map<String, RuleWatch> byRule, Optional<Alarm> alarm, boolean alarmed) {

  /** Nothing is remembered. */
  static final RuleWatches NONE = new RuleWatches(Map.of(), Optional.empty(), false);

  /** What is remembered of a rule. */
  RuleWatch of(ProtocolRule rule) {
    return of(rule.id());
  }

  RuleWatch of(String rule) {
    return byRule.getOrDefault(rule, RuleWatch.NONE);
  }

  /** Remembers something else of a rule. */
  RuleWatches with(String rule, RuleWatch watch) {
    if (watch.equals(of(rule))) {
      return this;
    }
    Map<String, RuleWatch> others =
        watch.equals(RuleWatch.NONE)
            ? PersistentCollections.without(byRule, rule)
            : PersistentCollections.with(byRule, rule, watch);
    return new RuleWatches(others, alarm, alarmed);
  }

  RuleWatches with(Alarm held) {
    return with(Optional.of(held));
  }

  RuleWatches with(Optional<Alarm> kept) {
    return new RuleWatches(byRule, kept, alarmed);
  }

  /** Notes whether an alarming stop applies; one that applied once is never forgotten. */
  RuleWatches alarmed(boolean applies) {
    return new RuleWatches(byRule, alarm, alarmed || applies);
  }

  /** Forgets what rules hung on: what has been acted upon stands. */
  RuleWatches withoutMarginal() {
    RuleWatches without = this;
    for (Map.Entry<String, RuleWatch> entry : byRule.entrySet()) {
      without = without.with(entry.getKey(), entry.getValue().withoutMarginal());
    }
    return without;
  }

  /** The rules that the tester has answered. */
  Set<String> heard() {
    return byRule.entrySet().stream()
        .filter(entry -> entry.getValue().heard().isPresent())
        .map(Map.Entry::getKey)
        .collect(Collectors.toUnmodifiableSet());
  }
}
