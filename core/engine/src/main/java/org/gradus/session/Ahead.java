package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stretch;
import org.gradus.protocol.Timing;
import org.gradus.rule.syntax.Action;

/**
 * When a decision may change by itself: the next moment at which anything that it rests on does.
 */
final class Ahead {

  private static final Duration TICK = Duration.ofMillis(1);

  private final Moment now;
  private final Course course;
  private final Duration time;
  private final List<Duration> changes = new ArrayList<>();

  private Ahead(Moment now) {
    this.now = now;
    this.course = now.course();
    this.time = now.time();
  }

  /** The next moment at which the decision of another one may change; empty: none within a day. */
  static Optional<Duration> of(Moment now) {
    return new Ahead(now).first();
  }

  private Optional<Duration> first() {
    switch (course.phase) {
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
    Passage passage = course.present();
    Duration limit = course.waitsUntil();
    Elapsed.next(now, Times.LONGEST).ifPresent(changes::add);
    NextChange.after(now, course.protocol.rules().cautioning(), Times.LONGEST)
        .ifPresent(changes::add);
    changes.add(passage.end());
    changes.add(limit);
    if (time.compareTo(passage.end()) >= 0) {
      // While a decision waits, due times go on, and what is given late is in step with them.
      for (MeasureLine line : course.protocol.schedule().lines()) {
        nextDue(line, passage.stretch(), passage.start(), time)
            .filter(due -> line.timing() instanceof Timing.Each && due.compareTo(limit) <= 0)
            .ifPresent(changes::add);
      }
      Decision decision = Judge.at(now);
      held(decision.verdict());
      decision.offers().forEach(offer -> held(offer.verdict()));
    }
    // At the moment of a step what is read belongs to the load before it.
    for (Loading load : passage.loads()) {
      load.nextChange(passage.since(time))
          .map(passage.start()::plus)
          .ifPresent(step -> changes.addAll(List.of(step, step.plus(TICK))));
      load.nextChange(passage.since(time).minus(TICK))
          .map(passage.start()::plus)
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
    Recovery recovery = course.protocol.recovery().orElseThrow();
    Duration start = course.exerciseEnd.orElse(course.now);
    Elapsed.next(now, Times.LONGEST).ifPresent(changes::add);
    changes.add(start.plus(recovery.atMost()));
    changes.add(RecoveryStage.at(course, time).end());
    List<ProtocolRule> cautions = new ArrayList<>();
    List<ProtocolRule> ends = new ArrayList<>();
    for (ProtocolRule rule : course.protocol.rules().inRecovery()) {
      if (rule.action() instanceof Action.Caution) {
        cautions.add(rule);
      } else if (rule.action() instanceof Action.End) {
        ends.add(rule);
      }
    }
    NextChange.after(now, cautions, Times.LONGEST).ifPresent(changes::add);
    NextChange.after(now, Standing.of(course, time), ends, Times.LONGEST).ifPresent(changes::add);
    // A reading stands until the next one is overdue.
    Stretch whole = Stretch.of(recovery.atMost());
    for (MeasureLine line : recovery.schedule().lines()) {
      Duration late = line.takes().plus(line.within()).plus(TICK);
      nextDue(line, whole, start, time.minus(late)).map(late::plus).ifPresent(changes::add);
    }
  }
}
