package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
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
   * a reading been a step higher or lower, is as open there as it was.
   */
  static void goOn(Course course, Course.Change change) {
    List<ProtocolRule> stops =
        course.protocol.rules().anyTime().stream()
            .filter(rule -> rule.isStop() && !rule.stagesOnly())
            .toList();
    List<ProtocolRule> waiting =
        stops.stream().filter(rule -> course.confirming.containsKey(rule.id())).toList();
    Set<String> rests =
        waiting.stream()
            .flatMap(rule -> Retake.signals(rule, course).stream())
            .collect(Collectors.toSet());
    Set<String> ids = waiting.stream().map(ProtocolRule::id).collect(Collectors.toSet());
    change.latest = Copies.keeping(change.latest, rests::contains);
    change.confirming = Copies.keeping(change.confirming, ids::contains);
    Set<String> open =
        stops.stream()
            .filter(rule -> rule.confirm().isPresent())
            .map(ProtocolRule::id)
            .filter(id -> course.alarm.filter(alarm -> alarm.rule().equals(id)).isEmpty())
            .collect(Collectors.toSet());
    change.doubts = Copies.keeping(course.doubts, open::contains);
  }
}
