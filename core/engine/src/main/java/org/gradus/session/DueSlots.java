package org.gradus.session;

import java.time.Duration;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Stretch;

/**
 * The due times of one stage, or of recovery, with the readings that count for them. Due times are
 * given since its start.
 *
 * @param schedule what is read, and when
 * @param start when it began, since the start of the session
 * @param stretch how long it lasts, as far as readings are timed by it
 * @param slots the readings that count for a due time
 * @param until up to when readings are waited for, since the start of the session
 */
record DueSlots(
    Schedule schedule, Duration start, Stretch stretch, ReadingSlots slots, Duration until) {

  static DueSlots of(Protocol protocol, StageRun run) {
    return new DueSlots(
        protocol.schedule(run.stage()),
        run.start(),
        run.stretch(),
        run.slots(),
        run.waitsUntil(protocol.unmeasured()));
  }

  /**
   * Those of recovery, which is timed from the end of the exercise; empty before, or without it.
   */
  static Optional<DueSlots> ofRecovery(TestState state) {
    Optional<Recovery> recovery = state.protocol.recovery();
    if (recovery.isEmpty() || state.recovery.exerciseEnd().isEmpty()) {
      return Optional.empty();
    }
    Duration start = state.recovery.exerciseEnd().get();
    Duration lasts = recovery.get().atMost();
    return Optional.of(
        new DueSlots(
            recovery.get().schedule(),
            start,
            Stretch.of(lasts),
            state.recovery.slots(),
            start.plus(lasts)));
  }

  Optional<MeasureLine> lineOf(String signal) {
    return schedule.lineOf(signal);
  }

  Duration since(Duration time) {
    return time.minus(start);
  }

  Optional<StoredReading> at(String signal, Duration due) {
    return slots.at(signal, due);
  }

  List<Duration> due(MeasureLine line, Duration moment) {
    return line.due(stretch, moment);
  }

  Optional<Duration> lastDue(MeasureLine line, Duration moment) {
    return line.lastDue(stretch, moment);
  }

  /**
   * The due time that stands for a signal at a moment: the last one of its line or, if it is later,
   * that of a reading which was asked for at the end of a stage because the one before was too old.
   */
  Optional<Duration> standing(MeasureLine line, String signal, Duration moment) {
    Optional<Duration> last = lastDue(line, moment);
    return slots
        .newest(signal, moment)
        .filter(filled -> last.isEmpty() || filled.compareTo(last.get()) > 0)
        .or(() -> last);
  }

  /** Whether a reading is too old to count at a moment. */
  static boolean isStale(MeasureLine line, StoredReading taken, Duration time) {
    return line.validFor()
        .filter(limit -> time.minus(taken.time()).compareTo(limit) > 0)
        .isPresent();
  }

  /** The due time a reading at a moment counts for; empty when none is near enough. */
  Optional<Duration> nearest(MeasureLine line, Duration since) {
    Duration first = since.minus(line.takes()).minus(line.within());
    Duration last = since.plus(line.within());
    Optional<Duration> nearest = Optional.empty();
    Duration apart = Duration.ZERO;
    for (Duration due : notBefore(first, line.due(stretch, last))) {
      Duration away = due.minus(since).abs();
      if (nearest.isEmpty() || away.compareTo(apart) < 0) {
        nearest = Optional.of(due);
        apart = away;
      }
    }
    return nearest;
  }

  /**
   * The next due time of a line that has another one a stretch of time before it whose reading is
   * there or can still be taken; empty when there is none as long as readings are waited for.
   *
   * @param now the due time that is looked at
   */
  Optional<Duration> nextWithEarlier(MeasureLine line, String signal, Duration now, Duration back) {
    for (Duration due : notBefore(now, line.due(stretch, since(until)))) {
      Duration before = due.minus(back);
      if (due.compareTo(now) > 0
          && line.isDueAt(stretch, before)
          && (before.compareTo(now) >= 0 || at(signal, before).isPresent())) {
        return Optional.of(due);
      }
    }
    return Optional.empty();
  }

  /** The next due time of a line not before a moment, as long as readings are waited for. */
  Optional<Duration> nextNotBefore(MeasureLine line, Duration moment) {
    return notBefore(moment, line.due(stretch, since(until))).stream().findFirst();
  }

  /** The due times from a moment on. They are in order, and may be very many. */
  static List<Duration> notBefore(Duration moment, List<Duration> due) {
    int place = Collections.binarySearch(due, moment);
    return due.subList(place >= 0 ? place : -place - 1, due.size());
  }
}
