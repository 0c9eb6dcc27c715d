package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.plan.Frame;
import org.jspecify.annotations.Nullable;

/**
 * What time alone brings about between two events: a stop that waited in vain for a second reading
 * counts, and a rule that asks for a clock comes to hold.
 */
final class Elapsed {

  private Elapsed() {}

  /** The course as it stands at a time, before anything is told then. */
  static Course at(Moment moment) {
    Course course = moment.course();
    Duration time = moment.time();
    boolean later = time.compareTo(course.now) > 0;
    List<ProtocolRule> restless = new ArrayList<>();
    @Nullable Meanwhile between = null;
    boolean meanwhile = false;
    for (ProtocolRule rule : Watch.ending(course)) {
      boolean could = false;
      if (later && rule.influences().time()) {
        between = between == null ? new Meanwhile(moment) : between;
        could = between.couldMatter(rule);
      }
      meanwhile |= could;
      if (could || Watch.isPending(rule, course) || course.phase == Phase.RECOVERY) {
        restless.add(rule);
      }
    }
    if (restless.isEmpty()) {
      return course;
    }
    Course by = course;
    // Beyond the time for which anything is waited for there is nobody to be answered in between.
    Duration end =
        meanwhile && course.waitsUntil().compareTo(time) < 0 ? course.waitsUntil() : time;
    Duration second = Duration.ofSeconds(course.now.toSeconds() + 1);
    for (; meanwhile && second.compareTo(end) < 0; second = second.plusSeconds(1)) {
      by = Watch.look(expire(by, second), restless, Sight.latest(by, second), second, Map.of());
    }
    return Watch.look(expire(by, time), restless, moment.latest(), time, Map.of());
  }

  // Of several stops that waited in vain the one counts whose wait was over first: whoever asked in
  // between was told it.
  private static Course expire(Course course, Duration time) {
    Optional<ProtocolRule> first = Optional.empty();
    Duration since = time;
    for (ProtocolRule rule : Watch.ending(course)) {
      Optional<Duration> until =
          Optional.ofNullable(course.confirming.get(rule.id()))
              .filter(confirming -> confirming.counts(time))
              .map(Confirming::until);
      boolean counts = rule.isStop() && until.isPresent() && Watch.outranks(rule, course.alarm);
      boolean sooner = counts && until.get().compareTo(since) < 0;
      if (counts && (first.isEmpty() || sooner)) {
        first = Optional.of(rule);
        since = sooner ? until.get() : since;
      }
    }
    if (first.isEmpty()) {
      return course;
    }
    ProtocolRule rule = first.get();
    Frame frame = Sight.latest(course, since);
    return course.with(change -> change.alarm = Optional.of(Watch.alarm(rule, frame, change)));
  }
}
