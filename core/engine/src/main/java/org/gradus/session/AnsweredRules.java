package org.gradus.session;

import java.time.Duration;
import java.util.HashSet;
import java.util.Set;

/**
 * The rules that a tester answered with an action. They stay the same when a reading is amended
 * later: nobody answers what was never said.
 *
 * @param answered the rules whose word is answered with it
 * @param isKnowing whether all readings counted then as they count now
 */
record AnsweredRules(Set<String> answered, boolean isKnowing) {

  AnsweredRules {
    answered = Set.copyOf(answered);
  }

  /** The rules that an event answers at its moment. */
  static AnsweredRules of(Event event, StateAt now) {
    Set<String> answered = new HashSet<>();
    boolean overridden = event.kind() == Event.Kind.OVERRIDDEN;
    if (overridden) {
      // The tester has seen this rule and decided otherwise. A rule that was not shown stays
      // active.
      Judge.at(now)
          .because()
          .map(Because::rule)
          .filter(rule -> ends(rule, now))
          .ifPresent(answered::add);
    }
    event
        .actedOn()
        .filter(verdict -> overridden || now.state().phase == Phase.STAGE)
        .ifPresent(verdict -> answered.addAll(stopped(verdict, now)));
    return new AnsweredRules(answered, true);
  }

  // A tester who stops has answered every stop that holds now.
  private static Set<String> stopped(Verdict verdict, StateAt now) {
    return verdict instanceof Verdict.Stop ? StopMonitor.stopping(now) : Set.of();
  }

  private static boolean ends(String rule, StateAt now) {
    return rule.equals(Alarm.UNDECIDED)
        || StopMonitor.ending(now.state()).stream().anyMatch(one -> one.id().equals(rule));
  }

  /**
   * Records the answer. None of the rules is reported again until it has ceased to hold, or holds
   * because of what was read or seen from a time on.
   */
  void answer(TestState.Change change, Duration since) {
    for (String rule : answered) {
      change.watches = change.watches.with(rule, change.watches.of(rule).heard(since));
    }
    change.watches = change.watches.with(Alarm.without(answered, change.watches.alarm()));
  }
}
