package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;

/**
 * The readings of one stage, or of recovery, by their due times. A reading counts for its due time.
 * Its age is taken at the due time that is evaluated and not at the moment of asking, so that
 * reading the cuff does not make the pulse stale.
 */
final class DueReadings {

  private final Optional<DueSlots> slots;
  private final Duration time;
  private final Optional<Map<String, StoredReading>> latest;

  /**
   * @param slots where the readings are; empty where nothing is read
   * @param latest the readings that are seen instead of those of the due time; empty: none are
   */
  DueReadings(
      Optional<DueSlots> slots, Duration time, Optional<Map<String, StoredReading>> latest) {
    this.slots = slots;
    this.time = time;
    this.latest = latest;
  }

  /** Fills a slot, or says why it is not known. */
  Optional<Gap> fill(Frame frame, int slot, Demand demand) {
    String signal = demand.subject();
    Optional<MeasureLine> line = slots.flatMap(at -> at.lineOf(signal));
    Optional<Duration> due =
        line.flatMap(
            read -> slots.orElseThrow().standing(read, signal, slots.orElseThrow().since(time)));
    if (due.isEmpty()) {
      return Optional.of(Gap.never(signal, Cause.NOT_IN_STAGE));
    }
    DueSlots stage = slots.orElseThrow();
    return switch (demand.aspect()) {
      case EARLIER -> earlier(frame, slot, demand, stage, line.orElseThrow(), due.get());
      case AVERAGE, HIGHEST, LOWEST -> aggregate(frame, slot, demand, stage, line.orElseThrow());
      case VALUE, EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED ->
          fill(frame, slot, fresh(stage, line.orElseThrow(), signal, due.get()))
              ? Optional.empty()
              : Optional.of(missing(stage, signal, due.get()));
    };
  }

  // Whether there is anything to fill it with.
  private static boolean fill(Frame frame, int slot, Optional<StoredReading> taken) {
    taken.ifPresent(reading -> reading.fill(frame, slot));
    return taken.isPresent();
  }

  /** The reading of a signal that counts at a moment of the stage and is not too old there. */
  Optional<StoredReading> standing(String signal, Duration moment) {
    Optional<MeasureLine> line = slots.flatMap(at -> at.lineOf(signal));
    if (line.isEmpty()) {
      return Optional.empty();
    }
    DueSlots stage = slots.orElseThrow();
    return stage
        .standing(line.get(), signal, moment)
        .flatMap(due -> fresh(stage, line.get(), signal, due));
  }

  private Optional<StoredReading> fresh(
      DueSlots stage, MeasureLine line, String signal, Duration due) {
    return stage.at(signal, due).filter(taken -> !DueSlots.isStale(line, taken, time));
  }

  private static Gap missing(DueSlots stage, String signal, Duration due) {
    return stage.at(signal, due).isPresent() || stage.slots().hasAny(signal)
        ? Gap.now(signal, Cause.STALE)
        : Gap.now(signal, Cause.NEVER_TAKEN);
  }

  private Optional<Gap> earlier(
      Frame frame, int slot, Demand demand, DueSlots stage, MeasureLine line, Duration due) {
    String signal = demand.subject();
    Duration span = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    Optional<Duration> present = latest.isEmpty() ? Optional.of(due) : ofLatest(stage, signal);
    Optional<StoredReading> now = present.flatMap(at -> stage.at(signal, at));
    Optional<StoredReading> before = present.flatMap(at -> stage.at(signal, at.minus(span)));
    boolean found =
        before.isPresent() && (now.isEmpty() || apart(before.get(), now.get(), span, line));
    return found && fill(frame, slot, before)
        ? Optional.empty()
        : Optional.of(settled(stage, line, signal, due, span));
  }

  // A rule for any time compares the latest reading, however old it is, with the one a span of time
  // before it: two different readings, each of which counts for a due time.
  private Optional<Duration> ofLatest(DueSlots stage, String signal) {
    Optional<StoredReading> shown = latest.map(readings -> readings.get(signal));
    return stage
        .slots()
        .newest(signal, stage.since(time).plus(stage.lineOf(signal).orElseThrow().within()))
        .filter(
            due ->
                shown
                    .filter(
                        taken -> taken.time().equals(stage.at(signal, due).orElseThrow().time()))
                    .isPresent());
  }

  // A reading that filled its slot late can be so near to the next one that a change between them
  // says nothing, or be the next one itself. Two that were taken in time cannot.
  private static boolean apart(
      StoredReading earlier, StoredReading later, Duration span, MeasureLine line) {
    Duration least = span.minus(line.within()).minus(line.within()).minus(line.takes());
    Duration apart = later.time().minus(earlier.time());
    return apart.compareTo(Duration.ZERO) > 0 && apart.compareTo(least) >= 0;
  }

  // Settled once a reading is due that has another one to be compared with.
  private static Gap settled(
      DueSlots stage, MeasureLine line, String signal, Duration due, Duration span) {
    return stage
        .nextWithEarlier(line, signal, due, span)
        .map(next -> Gap.at(stage.start().plus(next), signal, Cause.NOTHING_EARLIER))
        .orElseGet(() -> Gap.never(signal, Cause.NOTHING_EARLIER));
  }

  private Optional<Gap> aggregate(
      Frame frame, int slot, Demand demand, DueSlots stage, MeasureLine line) {
    Duration now = stage.since(time);
    Duration span = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    boolean window = demand.aspect() == Demand.Aspect.AVERAGE;
    List<StoredReading> found = new ArrayList<>();
    List<Duration> all = stage.due(line, now);
    // The start of the stretch is excluded.
    Duration first = now.minus(span).plusNanos(1);
    for (Duration due : window ? DueSlots.notBefore(first, all) : all) {
      Optional<StoredReading> taken = stage.at(demand.subject(), due);
      if (taken.isEmpty()) {
        return Optional.of(windowGap(demand, stage, line, due, window ? span : Duration.ZERO));
      }
      // One reading that stands for two due times is averaged once.
      if (!found.contains(taken.get())) {
        found.add(taken.get());
      }
    }
    if (found.isEmpty()) {
      return Optional.of(Gap.never(demand.subject(), Cause.NOT_IN_STAGE));
    }
    // No step of the result can be coarser than the coarsest of its readings.
    double half = found.stream().mapToDouble(StoredReading::half).max().orElse(0);
    frame.set(slot, value(demand.aspect(), found), half);
    return Optional.empty();
  }

  // A due time that has passed without a reading stays empty. An average is settled once its
  // stretch of time has moved on; what looks at the whole stage is not.
  private Gap windowGap(
      Demand demand, DueSlots stage, MeasureLine line, Duration due, Duration span) {
    boolean last = stage.lastDue(line, stage.since(time)).filter(due::equals).isPresent();
    if (last) {
      return missing(stage, demand.subject(), due);
    }
    Optional<Duration> next =
        span.isZero() ? Optional.empty() : stage.nextNotBefore(line, due.plus(span));
    return next.map(at -> Gap.at(stage.start().plus(at), demand.subject(), Cause.NEVER_TAKEN))
        .orElseGet(() -> Gap.never(demand.subject(), Cause.NEVER_TAKEN));
  }

  private static double value(Demand.Aspect aspect, List<StoredReading> found) {
    var values = found.stream().mapToDouble(StoredReading::value);
    return switch (aspect) {
      case HIGHEST -> values.max().orElseThrow();
      case LOWEST -> values.min().orElseThrow();
      case AVERAGE -> values.average().orElseThrow();
      case VALUE,
          EARLIER,
          EVER,
          COUNT,
          COMPLETED,
          LINE_MEAN_X,
          LINE_MEAN_Y,
          LINE_SLOPE,
          INTERPOLATED ->
          throw new IllegalStateException(aspect + " is no value of several readings");
    };
  }
}
