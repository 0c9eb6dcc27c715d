package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Truth;

/**
 * Looks at the rules that are looked at after every event. A stop that holds is kept until it is
 * followed or overridden, so that a host that asks late misses nothing.
 */
final class Watch {

  private Watch() {}

  /**
   * The rules that end the exercise, or recovery, at any time, as far as they apply in this phase.
   */
  static List<ProtocolRule> rules(Course course) {
    List<ProtocolRule> rules = new ArrayList<>();
    if (course.phase == Phase.STAGE || course.phase == Phase.RECOVERY) {
      for (ProtocolRule rule : course.protocol.rules().anyTime()) {
        if (course.phase == Phase.STAGE || !rule.stagesOnly()) {
          rules.add(rule);
        }
      }
    }
    if (course.phase == Phase.RECOVERY) {
      rules.addAll(course.protocol.rules().recovery());
    }
    return rules;
  }

  /** The course after a time has passed: a stop that waited in vain for a second reading counts. */
  static Course expire(Course course, Duration time) {
    if (course.alarm.isPresent()) {
      return course;
    }
    for (ProtocolRule rule : rules(course)) {
      Confirming confirming = course.confirming.get(rule.id());
      if (rule.isStop() && confirming != null && confirming.counts(time)) {
        Alarm alarm = alarm(rule, Sight.latest(course, course.now), confirming.until());
        return course.with(change -> change.alarm = Optional.of(alarm));
      }
    }
    return course;
  }

  /** The course after its rules have been looked at, given which signals were just read. */
  static Course look(Course course, Set<String> news) {
    List<ProtocolRule> rules = rules(course);
    if (rules.isEmpty()) {
      return course;
    }
    Frame frame = Sight.latest(course, course.now);
    return course.with(change -> rules.forEach(rule -> look(rule, course, frame, news, change)));
  }

  private static void look(
      ProtocolRule rule, Course course, Frame frame, Set<String> news, Course.Change change) {
    if (!rule.isStop() && !rule.isFinish()) {
      return;
    }
    Truth truth = rule.rule().test(frame);
    if (truth == Truth.FALSE) {
      change.confirming.remove(rule.id());
      change.dismissed.remove(rule.id());
    }
    if (truth != Truth.TRUE || course.dismissed.contains(rule.id())) {
      return;
    }
    boolean counts =
        rule.confirm().map(wait -> confirm(rule, wait, course, news, change)).orElse(true);
    if (rule.isStop() && counts && change.alarm.isEmpty()) {
      change.alarm = Optional.of(alarm(rule, frame, course.now));
    }
  }

  private static boolean confirm(
      ProtocolRule rule, Duration wait, Course course, Set<String> news, Course.Change change) {
    Confirming before = course.confirming.get(rule.id());
    Confirming after =
        before == null
            ? new Confirming(course.now, course.now.plus(wait), false)
            : new Confirming(before.since(), before.until(), before.agreed() || brings(rule, news));
    change.confirming.put(rule.id(), after);
    return after.counts(course.now);
  }

  private static boolean brings(ProtocolRule rule, Set<String> news) {
    return rule.rule().condition().stream()
        .flatMap(condition -> condition.demands().stream())
        .anyMatch(demand -> news.contains(demand.subject()));
  }

  static Alarm alarm(ProtocolRule rule, Frame frame, Duration at) {
    Box box = Resolution.around(frame);
    List<String> couldFlip =
        rule.rule()
            .condition()
            .map(when -> when.outcomes(box).alwaysHolds() ? List.<String>of() : when.undecided(box))
            .orElse(List.of());
    boolean rest = rule.then() == ProtocolRule.Then.REST;
    return new Alarm(
        rule.id(),
        new Verdict.Stop(rest, rule.instruction()),
        Reasons.of(rule, frame),
        new Firmness(couldFlip),
        at);
  }

  /** Whether a rule holds and needs no further reading. */
  static boolean fires(ProtocolRule rule, Course course, Frame frame, Duration time) {
    if (course.dismissed.contains(rule.id()) || rule.rule().test(frame) != Truth.TRUE) {
      return false;
    }
    Confirming confirming = course.confirming.get(rule.id());
    return rule.confirm().isEmpty() || (confirming != null && confirming.counts(time));
  }

  /** The rules that hold on one reading and wait for a second. */
  static List<ProtocolRule> confirming(Course course, Duration time) {
    return rules(course).stream()
        .filter(
            rule -> {
              Confirming confirming = course.confirming.get(rule.id());
              return confirming != null && !confirming.counts(time);
            })
        .toList();
  }
}
