package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Gap.Cause;

/**
 * The readings of one stage seen by their due times. A reading counts for its due time; its
 * freshness is judged at the due time that is looked at and never at the moment of asking, so that
 * reading the cuff does not make the pulse stale.
 */
final class SlotSight {

  private final Protocol protocol;
  private final Optional<Passage> passage;
  private final Duration time;

  SlotSight(Protocol protocol, Optional<Passage> passage, Duration time) {
    this.protocol = protocol;
    this.passage = passage;
    this.time = time;
  }

  void fill(Frame frame, int slot, Demand demand) {
    Optional<MeasureLine> line = protocol.schedule().lineOf(demand.subject());
    Optional<Duration> due =
        line.isEmpty() || passage.isEmpty()
            ? Optional.empty()
            : line.get().lastDue(passage.get().stretch(), passage.get().since(time));
    if (due.isEmpty()) {
      frame.miss(slot, Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
      return;
    }
    Passage stage = passage.orElseThrow();
    switch (demand.aspect()) {
      case EARLIER -> earlier(frame, slot, demand, stage, line.get(), due.get());
      case AVERAGE, HIGHEST, LOWEST -> aggregate(frame, slot, demand, stage, line.get());
      default -> {
        Optional<Taken> taken = fresh(stage, line.get(), demand.subject(), due.get());
        if (taken.isPresent()) {
          taken.get().fill(frame, slot);
        } else {
          frame.miss(slot, missing(stage, demand.subject(), due.get()));
        }
      }
    }
  }

  /** The reading of a signal that counts at a moment of the stage and is not too old there. */
  Optional<Taken> standing(String signal, Duration moment) {
    Optional<MeasureLine> line = protocol.schedule().lineOf(signal);
    if (line.isEmpty() || passage.isEmpty()) {
      return Optional.empty();
    }
    Optional<Duration> due = line.get().lastDue(passage.get().stretch(), moment);
    return due.isEmpty() ? Optional.empty() : fresh(passage.get(), line.get(), signal, due.get());
  }

  private Optional<Taken> fresh(Passage stage, MeasureLine line, String signal, Duration due) {
    Optional<Taken> taken = stage.slot(signal, due);
    boolean tooOld =
        taken.isPresent()
            && line.validFor().isPresent()
            && time.minus(taken.get().time()).compareTo(line.validFor().get()) > 0;
    return tooOld ? Optional.empty() : taken;
  }

  private static Gap missing(Passage stage, String signal, Duration due) {
    return stage.slot(signal, due).isPresent() || stage.slots().hasAny(signal)
        ? Gap.now(signal, Cause.STALE)
        : Gap.now(signal, Cause.NEVER_TAKEN);
  }

  private void earlier(
      Frame frame, int slot, Demand demand, Passage stage, MeasureLine line, Duration due) {
    Duration span = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    Optional<Taken> now = stage.slot(demand.subject(), due);
    Optional<Taken> before = stage.slot(demand.subject(), due.minus(span));
    boolean found =
        before.isPresent() && (now.isEmpty() || apart(before.get(), now.get(), span, line));
    if (found) {
      before.get().fill(frame, slot);
    } else {
      frame.miss(slot, settled(stage, due.plus(span), demand.subject()));
    }
  }

  // A reading that filled its slot late can be so near to the next one that a change between them
  // says nothing. Two that were taken in time cannot.
  private static boolean apart(Taken earlier, Taken later, Duration span, MeasureLine line) {
    Duration least = span.minus(line.within()).minus(line.within()).minus(line.takes());
    return later.time().minus(earlier.time()).compareTo(least) >= 0;
  }

  // With a reading now, the next one a stretch of time later has something to be compared with.
  private Gap settled(Passage stage, Duration next, String signal) {
    Duration limit = stage.waitsUntil(protocol.unmeasured());
    Duration at = stage.start().plus(next);
    return at.compareTo(limit) <= 0
        ? Gap.at(at, signal, Cause.NOTHING_EARLIER)
        : Gap.never(signal, Cause.NOTHING_EARLIER);
  }

  private void aggregate(Frame frame, int slot, Demand demand, Passage stage, MeasureLine line) {
    Duration now = stage.since(time);
    Duration span = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    boolean window = demand.aspect() == Demand.Aspect.AVERAGE;
    List<Taken> found = new ArrayList<>();
    for (Duration due : line.due(stage.stretch(), now)) {
      if (!window || due.compareTo(now.minus(span)) > 0) {
        Optional<Taken> taken = stage.slot(demand.subject(), due);
        if (taken.isEmpty()) {
          frame.miss(slot, windowGap(demand, stage, line, due, window ? span : Duration.ZERO));
          return;
        }
        found.add(taken.get());
      }
    }
    if (found.isEmpty()) {
      frame.miss(slot, Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
      return;
    }
    // No step of the result can be coarser than the coarsest of its readings.
    double half = found.stream().mapToDouble(Taken::half).max().orElse(0);
    frame.set(slot, value(demand.aspect(), found), half);
  }

  // A due time that has passed without a reading stays empty. An average is settled once its
  // stretch of time has moved on; what looks at the whole stage is not.
  private Gap windowGap(
      Demand demand, Passage stage, MeasureLine line, Duration due, Duration span) {
    boolean last = line.lastDue(stage.stretch(), stage.since(time)).filter(due::equals).isPresent();
    if (last) {
      return missing(stage, demand.subject(), due);
    }
    Duration at = stage.start().plus(due).plus(span);
    return !span.isZero() && at.compareTo(stage.waitsUntil(protocol.unmeasured())) <= 0
        ? Gap.at(at, demand.subject(), Cause.NEVER_TAKEN)
        : Gap.never(demand.subject(), Cause.NEVER_TAKEN);
  }

  private static double value(Demand.Aspect aspect, List<Taken> found) {
    var values = found.stream().mapToDouble(Taken::value);
    return switch (aspect) {
      case HIGHEST -> values.max().orElseThrow();
      case LOWEST -> values.min().orElseThrow();
      default -> values.average().orElseThrow();
    };
  }
}
