package org.gradus.session;

import java.time.Duration;
import java.util.HashSet;
import java.util.Set;

/**
 * What an event says to the rules that had spoken when it was done. It stays what it was when a
 * reading is put right later: nobody answers what was never said.
 *
 * @param answered the rules whose word is answered with it
 * @param isKnowing whether all readings counted then as they count now
 */
record AnsweredRules(Set<String> answered, boolean isKnowing) {

  AnsweredRules {
    answered = Set.copyOf(answered);
  }

  /** What an event means that happens at a moment. */
  static AnsweredRules of(Event event, StateAt now) {
    Set<String> answered = new HashSet<>();
    if (event instanceof Event.Followed followed && now.state().phase == Phase.STAGE) {
      answered.addAll(stopped(followed.verdict(), now));
    } else if (event instanceof Event.Overridden overridden) {
      // The tester has seen this rule and decided otherwise. What was not shown speaks up at once.
      Judge.at(now)
          .because()
          .map(Because::rule)
          .filter(rule -> ends(rule, now))
          .ifPresent(answered::add);
      answered.addAll(stopped(overridden.verdict(), now));
    }
    return new AnsweredRules(answered, true);
  }

  // Whoever stops has done what every stop asks for that holds now.
  private static Set<String> stopped(Verdict verdict, StateAt now) {
    return verdict instanceof Verdict.Stop ? StopMonitor.stopping(now) : Set.of();
  }

  private static boolean ends(String rule, StateAt now) {
    return rule.equals(Alarm.UNDECIDED)
        || StopMonitor.ending(now.state()).stream().anyMatch(one -> one.id().equals(rule));
  }

  /**
   * Takes the answer to the rules. None of them speaks up again until it has ceased to hold, or
   * rests on what was read or seen from a time on.
   */
  void answer(TestState.Change change, Duration since) {
    for (String rule : answered) {
      RuleWatch watch = change.watches.getOrDefault(rule, RuleWatch.NONE);
      change.watch(rule, watch.heard(since));
    }
    change.alarm = Alarm.without(answered, change.alarm);
  }
}
