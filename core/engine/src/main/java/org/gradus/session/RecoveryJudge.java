package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Action;

/** Decides in recovery: an emergency stops again, and the end has to be earned. */
final class RecoveryJudge {

  private final Course course;
  private final Duration time;
  private final Recovery recovery;
  private final Duration start;
  private final Frame latest;
  private final Frame standing;
  private final List<ProtocolRule> ends;
  private final List<ProtocolRule> cautions;

  RecoveryJudge(Moment now) {
    this.latest = now.latest();
    this.course = now.course();
    this.time = now.time();
    this.standing = Sight.standing(course, time);
    this.recovery = course.protocol.recovery().orElseThrow();
    this.start = course.exerciseEnd.orElse(course.now);
    List<ProtocolRule> rules = course.protocol.rules().inRecovery();
    this.ends = rules.stream().filter(rule -> rule.action() instanceof Action.End).toList();
    this.cautions = rules.stream().filter(rule -> rule.action() instanceof Action.Caution).toList();
  }

  Decision decide() {
    if (course.alarm.isPresent()) {
      Alarm alarm = course.alarm.get();
      return decision(
          alarm.verdict(), Optional.of(alarm.because()), StopMonitor.firmness(course, alarm));
    }
    Duration limit = start.plus(recovery.atMost());
    Duration until = RecoveryStage.at(course, time).end();
    Agenda agenda = Agendas.ofRecovery(course, start, until, time);
    Optional<Retake> retake = Retake.of(course, time);
    if (retake.isPresent()) {
      Because because = Reasons.of(retake.get().rule(), latest);
      return decision(retake.get().verdict(agenda), Optional.of(because), Firmness.of(doubts()));
    }
    Optional<ProtocolRule> end = ends.stream().filter(this::ends).findFirst();
    if (end.isPresent() && course.symptoms.isEmpty() && cautions.stream().noneMatch(this::holds)) {
      Because because = Reasons.of(end.get(), standing);
      return decision(new Verdict.End(), Optional.of(because), firmness(true));
    }
    if (time.compareTo(limit) >= 0) {
      return decision(new Verdict.NotRecovered(unmet()), Optional.empty(), firmness(false));
    }
    return decision(new Verdict.Continue(until, agenda), Optional.empty(), firmness(false));
  }

  private boolean holds(ProtocolRule rule) {
    return rule.rule().test(latest) == Truth.TRUE;
  }

  // Nobody has recovered by a reading that is too old.
  private boolean ends(ProtocolRule rule) {
    return rule.rule().test(standing) == Truth.TRUE;
  }

  private List<String> unmet() {
    List<String> unmet = new ArrayList<>();
    if (ends.stream().noneMatch(this::ends)) {
      ends.forEach(rule -> unmet.add(shown(rule)));
    }
    cautions.stream().filter(this::holds).forEach(rule -> unmet.add(shown(rule)));
    unmet.addAll(Symptoms.unmet(course));
    return unmet;
  }

  private String shown(ProtocolRule rule) {
    boolean old = holds(rule) && rule.action() instanceof Action.End;
    Because because = Reasons.of(rule, old ? standing : latest);
    return rule.id() + ": " + because.filled().map(Filled::text).orElse(because.text());
  }

  private Set<String> doubts() {
    return StopMonitor.marginal(course, StopMonitor.ending(course));
  }

  private Firmness firmness(boolean ended) {
    Leeway leeway = Leeway.around(latest);
    Leeway ending = Leeway.around(standing);
    boolean firm =
        ended
            ? ends.stream().anyMatch(rule -> ending.outcomes(rule).alwaysHolds())
                && cautions.stream().noneMatch(rule -> leeway.outcomes(rule).canHold())
            : !course.symptoms.isEmpty()
                || ends.stream().noneMatch(rule -> ending.outcomes(rule).canHold())
                || cautions.stream().anyMatch(rule -> leeway.outcomes(rule).alwaysHolds());
    Set<String> flips = new LinkedHashSet<>(doubts());
    if (!firm) {
      ends.forEach(rule -> flips.addAll(ending.undecided(rule)));
      cautions.forEach(rule -> flips.addAll(leeway.undecided(rule)));
    }
    return Firmness.of(flips);
  }

  private Decision decision(Verdict verdict, Optional<Because> because, Firmness firmness) {
    return new Decision(
        time,
        course.phase,
        Optional.of(RecoveryStage.at(course, time).stage().id()),
        verdict,
        because,
        firmness,
        List.of(),
        cautions.stream().filter(this::holds).map(rule -> Reasons.of(rule, latest)).toList(),
        List.of(),
        course.events.size());
  }
}
