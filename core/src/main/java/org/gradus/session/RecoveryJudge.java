package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Truth;
import org.gradus.rule.syntax.Action;

/** Decides in recovery: an emergency stops again, and the end has to be earned. */
final class RecoveryJudge {

  private final Course course;
  private final Duration time;
  private final Recovery recovery;
  private final Duration start;
  private final Frame latest;

  RecoveryJudge(Course course, Duration time) {
    this.course = Watch.expire(course, time);
    this.time = time;
    this.recovery = course.protocol.recovery().orElseThrow();
    this.start = course.exerciseEnd.orElse(course.now);
    this.latest = Sight.latest(course, time);
  }

  Decision decide() {
    Optional<Alarm> alarm = course.alarm;
    if (alarm.isPresent()) {
      return decision(alarm.get().verdict(), Optional.of(alarm.get().because()), List.of());
    }
    List<Because> cautions = cautions();
    Optional<ProtocolRule> end =
        ends().stream().filter(rule -> rule.rule().test(latest) == Truth.TRUE).findFirst();
    if (end.isPresent() && cautions.isEmpty()) {
      return decision(new Verdict.End(), Optional.of(Reasons.of(end.get(), latest)), cautions);
    }
    Duration limit = start.plus(recovery.atMost());
    if (time.compareTo(limit) >= 0) {
      List<String> unmet =
          ends().stream().map(rule -> Reasons.of(rule, latest).toString()).toList();
      return decision(new Verdict.NotRecovered(unmet), Optional.empty(), cautions);
    }
    Duration until = stageEnd(limit);
    Agenda agenda = Agendas.ofRecovery(recovery.schedule(), start, until, time);
    return decision(new Verdict.Continue(until, agenda), Optional.empty(), cautions);
  }

  private List<ProtocolRule> ends() {
    return course.protocol.rules().recovery().stream()
        .filter(rule -> rule.action() instanceof Action.End)
        .toList();
  }

  private List<Because> cautions() {
    List<Because> cautions = new ArrayList<>();
    for (ProtocolRule rule : Watch.rules(course)) {
      if (rule.action() instanceof Action.Caution && rule.rule().test(latest) == Truth.TRUE) {
        cautions.add(Reasons.of(rule, latest));
      }
    }
    return cautions;
  }

  // The stage of recovery at this time; after a stop with rest the moving ones are passed over.
  private Stage stage() {
    Duration elapsed = time.minus(start).plus(course.recoverySkipped);
    for (Stage stage : recovery.stages()) {
      if (elapsed.compareTo(stage.lasts()) < 0) {
        return stage;
      }
      elapsed = elapsed.minus(stage.lasts());
    }
    return recovery.stages().get(recovery.stages().size() - 1);
  }

  private Duration stageEnd(Duration limit) {
    Duration end = start.minus(course.recoverySkipped);
    for (Stage stage : recovery.stages()) {
      end = end.plus(stage.lasts());
      if (end.compareTo(time) > 0) {
        break;
      }
    }
    return end.compareTo(limit) < 0 ? end : limit;
  }

  private Decision decision(Verdict verdict, Optional<Because> because, List<Because> cautions) {
    return new Decision(
        time,
        course.phase,
        Optional.of(stage().id()),
        verdict,
        because,
        Firmness.FIRM,
        List.of(),
        cautions,
        List.of(),
        course.events.size());
  }
}
