package org.gradus.session;

import java.time.Duration;
import java.util.HashSet;
import java.util.Set;
import org.gradus.protocol.ProtocolRule;

/**
 * A rule that holds on one reading and waits for a second.
 *
 * @param until when it counts without a second reading
 * @param agreed whether a second reading has agreed
 */
record Confirming(Duration until, boolean agreed) {

  /** Whether it counts at a time. */
  boolean counts(Duration time) {
    return agreed || time.compareTo(until) >= 0;
  }

  /**
   * Takes into recovery what still waits for a second reading there, with the readings it rests on;
   * all else that was read in the exercise says nothing about recovery. What would wait there, had
   * a reading been a step higher or lower, is as open there as it was. A stop that was told and
   * followed rests on nothing any more.
   */
  static void goOn(Course course, Course.Change change) {
    Set<String> rests = new HashSet<>();
    Set<String> waiting = new HashSet<>();
    Set<String> open = new HashSet<>();
    for (ProtocolRule rule : course.protocol.rules().anyTime()) {
      if (!rule.isStop() || rule.stagesOnly() || change.answered.containsKey(rule.id())) {
        continue;
      }
      if (change.confirming.containsKey(rule.id())) {
        waiting.add(rule.id());
        rests.addAll(Retake.signals(rule, course));
      }
      if (rule.confirm().isPresent()) {
        open.add(rule.id());
      }
    }
    change.latest = Copies.keeping(change.latest, rests::contains);
    change.confirming = Copies.keeping(change.confirming, waiting::contains);
    change.doubts = Copies.keeping(course.doubts, open::contains);
  }
}
