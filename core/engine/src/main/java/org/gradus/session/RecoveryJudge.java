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
import org.gradus.words.Joined;
import org.gradus.words.Message;

/** Decides in recovery: stop again in an emergency, end when the criteria are met, or continue. */
final class RecoveryJudge {

  private final StateAt now;
  private final TestState state;
  private final Duration time;
  private final Recovery recovery;
  private final Duration start;
  private final Frame latest;
  private final Frame standing;
  private final List<ProtocolRule> ends;
  private final List<ProtocolRule> cautions;

  RecoveryJudge(StateAt now) {
    this.now = now;
    this.latest = now.latest();
    this.state = now.state();
    this.time = now.time();
    this.standing = FrameFiller.standing(state, time);
    this.recovery = state.protocol.recovery().orElseThrow();
    this.start = state.recovery.exerciseEnd().orElse(state.now);
    this.ends = state.protocol.rules().endOfRecovery();
    this.cautions = state.protocol.rules().cautioningInRecovery();
  }

  Decision decide() {
    if (state.watches.alarm().isPresent()) {
      Alarm alarm = state.watches.alarm().get();
      return decision(
          alarm.verdict(), Optional.of(alarm.because()), StopMonitor.firmness(state, alarm));
    }
    Duration limit = start.plus(recovery.atMost());
    Duration until = RecoveryStage.at(state, time).end();
    Optional<Retake> retake = Retake.of(state, time);
    if (retake.isPresent()) {
      Because because = Reasons.of(retake.get().rule(), latest);
      return decision(retake.get().verdict(), Optional.of(because), Firmness.of(doubts()));
    }
    Optional<ProtocolRule> end = ends.stream().filter(this::ends).findFirst();
    if (end.isPresent()
        && state.signs.symptoms().isEmpty()
        && cautions.stream().noneMatch(this::holds)) {
      Because because = Reasons.of(end.get(), standing);
      return decision(new Verdict.End(), Optional.of(because), firmness(true));
    }
    if (time.compareTo(limit) >= 0) {
      return decision(new Verdict.NotRecovered(unmet()), Optional.empty(), firmness(false));
    }
    return decision(new Verdict.Continue(until), Optional.empty(), firmness(false));
  }

  private boolean holds(ProtocolRule rule) {
    return rule.rule().test(latest) == Truth.TRUE;
  }

  // A reading that is too old does not show recovery.
  private boolean ends(ProtocolRule rule) {
    return rule.rule().test(standing) == Truth.TRUE;
  }

  private List<Message> unmet() {
    List<Message> unmet = new ArrayList<>();
    if (ends.stream().noneMatch(this::ends)) {
      ends.forEach(rule -> unmet.add(shown(rule)));
    }
    cautions.stream().filter(this::holds).forEach(rule -> unmet.add(shown(rule)));
    unmet.addAll(Symptoms.unmet(state));
    return unmet;
  }

  private Message shown(ProtocolRule rule) {
    boolean old = holds(rule) && rule.action().kind() == Action.Kind.END;
    Because because = Reasons.of(rule, old ? standing : latest);
    return Message.of(
        Joined.ALONE, rule.id() + ": " + because.filled().map(Filled::text).orElse(because.text()));
  }

  private Set<String> doubts() {
    return StopMonitor.marginal(state, StopMonitor.ending(state));
  }

  private Firmness firmness(boolean ended) {
    MarginAnalysis margins = MarginAnalysis.around(latest);
    MarginAnalysis ending = MarginAnalysis.around(standing);
    boolean firm =
        ended
            ? ends.stream().anyMatch(rule -> ending.outcomes(rule).alwaysHolds())
                && cautions.stream().noneMatch(rule -> margins.outcomes(rule).canHold())
            : !state.signs.symptoms().isEmpty()
                || ends.stream().noneMatch(rule -> ending.outcomes(rule).canHold())
                || cautions.stream().anyMatch(rule -> margins.outcomes(rule).alwaysHolds());
    Set<String> flips = new LinkedHashSet<>(doubts());
    if (!firm) {
      ends.forEach(rule -> flips.addAll(ending.undecided(rule)));
      cautions.forEach(rule -> flips.addAll(margins.undecided(rule)));
    }
    return Firmness.of(flips);
  }

  private Decision decision(Verdict verdict, Optional<Because> because, Firmness firmness) {
    return Decision.of(
        now,
        Optional.of(RecoveryStage.at(state, time).stage().id()),
        verdict,
        because,
        firmness,
        List.of(),
        cautions.stream().filter(this::holds).map(rule -> Reasons.of(rule, latest)).toList(),
        List.of(),
        Agendas.inRecovery(now));
  }
}
