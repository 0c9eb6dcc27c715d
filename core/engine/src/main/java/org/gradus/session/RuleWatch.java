package org.gradus.session;

import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.ProtocolRule;

/**
 * What is remembered of a rule that can end something. Immutable.
 *
 * @param second the second reading that it waits for, if it holds and has to be confirmed
 * @param marginal what its answer hung on, if it only just held or did not hold
 * @param heard since when the tester has answered its word; it speaks up again once it has ceased
 *     to hold, or on grounds that were read or seen from then on
 */
record RuleWatch(
    Optional<SecondReading> second, Optional<MarginalRule> marginal, Optional<Duration> heard) {

  /** There is nothing to remember. */
  static final RuleWatch NONE = new RuleWatch(Optional.empty(), Optional.empty(), Optional.empty());

  RuleWatch with(SecondReading awaited) {
    return new RuleWatch(Optional.of(awaited), marginal, heard);
  }

  RuleWatch with(Optional<MarginalRule> open) {
    return open.equals(marginal) ? this : new RuleWatch(second, open, heard);
  }

  RuleWatch withoutSecond() {
    return second.isEmpty() ? this : new RuleWatch(Optional.empty(), marginal, heard);
  }

  RuleWatch withoutMarginal() {
    return with(Optional.<MarginalRule>empty());
  }

  RuleWatch withoutHeard() {
    return heard.isEmpty() ? this : new RuleWatch(second, marginal, Optional.empty());
  }

  /** After the tester has answered it. It waits for nothing any more. */
  RuleWatch heard(Duration since) {
    return new RuleWatch(Optional.empty(), marginal, Optional.of(since));
  }

  /**
   * Takes into recovery what still waits for a second reading there, with the readings it rests on;
   * all else that was read in the exercise says nothing about recovery. What would wait there, had
   * a reading been a step higher or lower, is as open there as it was. A stop that was told and
   * followed rests on nothing any more.
   */
  static void goOn(TestState state, TestState.Change change) {
    Set<String> rests = new HashSet<>();
    for (ProtocolRule rule : state.protocol.rules().anyTime()) {
      RuleWatch watch = change.watches.of(rule);
      boolean isWatched = rule.isStop() && !rule.stagesOnly() && watch.heard.isEmpty();
      if (isWatched && watch.second.isPresent()) {
        rests.addAll(Retake.signals(rule, state));
      }
      boolean isOpen = isWatched && rule.confirm().isPresent();
      change.watches =
          change.watches.with(
              rule.id(),
              new RuleWatch(
                  watch.second.filter(any -> isWatched),
                  state.watches.of(rule).marginal.filter(any -> isOpen),
                  watch.heard));
    }
    change.readings = change.readings.keepingLatest(rests::contains);
  }

  /** The comparisons on which its answer hung. */
  List<String> comparisons() {
    return marginal.map(MarginalRule::comparisons).orElse(List.of());
  }

  /** Whether it waits for a second reading at a time. */
  boolean waits(Duration time) {
    return second.isPresent() && !second.get().counts(time);
  }

  /** Whether it counts by now by a second reading, or because none came in time. */
  boolean counts(Duration time) {
    return second.isPresent() && second.get().counts(time);
  }
}
