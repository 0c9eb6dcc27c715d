package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stretch;
import org.gradus.protocol.Timing;

/**
 * When a decision may change by itself: the next moment at which anything that it depends on
 * changes.
 */
final class NextDecisionChange {

  private static final Duration TICK = Duration.ofMillis(1);

  private final StateAt now;
  private final TestState state;
  private final Duration time;
  private final List<Duration> changes = new ArrayList<>();

  private NextDecisionChange(StateAt now) {
    this.now = now;
    this.state = now.state();
    this.time = now.time();
  }

  /** The next moment at which the decision may change; empty: none within a day. */
  static Optional<Duration> of(StateAt now) {
    return new NextDecisionChange(now).first();
  }

  private Optional<Duration> first() {
    switch (state.phase) {
      case STAGE -> stage();
      case RECOVERY -> recovery();
      case BEFORE, ENDED -> {
        // Nothing changes there before something is told.
      }
    }
    return changes.stream()
        .filter(at -> at.compareTo(time) > 0 && at.compareTo(Times.LONGEST) <= 0)
        .min(Duration::compareTo);
  }

  private void stage() {
    StageRun run = state.currentRun();
    Duration limit = state.waitsUntil();
    TimeAdvance.next(now, Times.LONGEST).ifPresent(changes::add);
    NextRuleChange.after(now, state.protocol.rules().cautioning(), Times.LONGEST)
        .ifPresent(changes::add);
    changes.add(run.end());
    changes.add(limit);
    if (time.compareTo(run.end()) >= 0) {
      // While a decision waits, further readings become due, and a late hold is in step with them.
      for (MeasureLine line : state.protocol.schedule(run.stage()).lines()) {
        nextDue(line, run.stretch(), run.start(), time)
            .filter(due -> line.timing() instanceof Timing.Each && due.compareTo(limit) <= 0)
            .ifPresent(changes::add);
      }
      Decision decision = Judge.at(now);
      held(decision.verdict());
      decision.offers().forEach(offer -> held(offer.verdict()));
    }
    // At the moment of a step what is read belongs to the load before it.
    for (Loading load : run.loads()) {
      load.nextChange(run.since(time))
          .map(run.start()::plus)
          .ifPresent(step -> changes.addAll(List.of(step, step.plus(TICK))));
      load.nextChange(run.since(time).minus(TICK))
          .map(run.start()::plus)
          .ifPresent(step -> changes.add(step.plus(TICK)));
    }
  }

  private void held(Verdict verdict) {
    if (verdict instanceof Verdict.Hold hold) {
      changes.add(hold.until());
    }
  }

  private static Optional<Duration> nextDue(
      MeasureLine line, Stretch stretch, Duration start, Duration after) {
    return line.timing().nextDue(stretch, after.minus(start)).map(start::plus);
  }

  private void recovery() {
    Recovery recovery = state.protocol.recovery().orElseThrow();
    Duration start = state.recovery.exerciseEnd().orElse(state.now);
    TimeAdvance.next(now, Times.LONGEST).ifPresent(changes::add);
    changes.add(start.plus(recovery.atMost()));
    changes.add(RecoveryStage.at(state, time).end());
    NextRuleChange.after(now, state.protocol.rules().cautioningInRecovery(), Times.LONGEST)
        .ifPresent(changes::add);
    NextRuleChange.after(
            now,
            CurrentReadings.of(state, time),
            state.protocol.rules().endOfRecovery(),
            Times.LONGEST)
        .ifPresent(changes::add);
    // A reading stands until the next one is overdue.
    Stretch whole = Stretch.of(recovery.atMost());
    for (MeasureLine line : recovery.schedule().lines()) {
      Duration late = line.takes().plus(line.within()).plus(TICK);
      nextDue(line, whole, start, time.minus(late)).map(late::plus).ifPresent(changes::add);
    }
  }
}
