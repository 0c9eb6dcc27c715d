package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Unmeasured;

/**
 * One stage as it is being, or was, gone through.
 *
 * @param stage the stage
 * @param start when it began, since the start of the session
 * @param end when the next decision is due; moves with every hold
 * @param holds how often it was held
 * @param waited how long missing readings were waited for at earlier ends
 * @param loads what is set
 * @param loadChanged when something else was set than the protocol says
 * @param slots the readings that count for a due time
 * @param decided the due time at which its last decision was made, since its start, once it is left
 * @param completed whether it was left at its end and not broken off
 */
record Passage(
    Stage stage,
    Duration start,
    Duration end,
    int holds,
    Duration waited,
    List<Loading> loads,
    Optional<Duration> loadChanged,
    Slots slots,
    Optional<Duration> decided,
    boolean completed) {

  static Passage begin(Stage stage, List<Loading> loads, Duration at) {
    return new Passage(
        stage,
        at,
        at.plus(stage.lasts()),
        0,
        Duration.ZERO,
        loads,
        Optional.empty(),
        Slots.EMPTY,
        Optional.empty(),
        false);
  }

  /** How long it has lasted. */
  Duration since(Duration time) {
    return time.minus(start);
  }

  /** The due time of its planned end, since its start. */
  Duration endInStage() {
    return end.minus(start);
  }

  /** Until when a decision at its end may wait for readings. */
  Duration waitsUntil(Unmeasured unmeasured) {
    Duration left = unmeasured.atMost().minus(waited);
    return left.isNegative() ? end : end.plus(left);
  }

  Optional<Taken> slot(String signal, Duration due) {
    return slots.at(signal, due);
  }

  /** Whether a reading was taken under the load that is set now. */
  boolean isUnderThisLoad(Taken taken) {
    return loadChanged.map(at -> taken.time().compareTo(at) > 0).orElse(true);
  }

  /** With a reading in a slot. */
  Passage with(String signal, MeasureLine line, Duration due, Taken taken) {
    Duration dueTime = start.plus(due);
    boolean inStretch =
        taken.time().compareTo(dueTime) <= 0
            && taken.time().compareTo(dueTime.minus(line.over())) > 0;
    return new Passage(
        stage,
        start,
        end,
        holds,
        waited,
        loads,
        loadChanged,
        slots.with(signal, due, taken, inStretch),
        decided,
        completed);
  }

  /** With another load. Readings under the old one say nothing about it: the slots start again. */
  Passage with(Loading load, Duration at) {
    List<Loading> changed = new ArrayList<>(loads);
    changed.replaceAll(old -> old.name().equals(load.name()) ? load : old);
    return new Passage(
        stage,
        start,
        end,
        holds,
        waited,
        List.copyOf(changed),
        Optional.of(at),
        Slots.EMPTY,
        decided,
        completed);
  }

  /** Held until a new end. What has passed since the old one was spent waiting for readings. */
  Passage held(Duration newEnd, Duration at) {
    Duration late = at.compareTo(end) > 0 ? at.minus(end) : Duration.ZERO;
    return new Passage(
        stage,
        start,
        newEnd,
        holds + 1,
        waited.plus(late),
        loads,
        loadChanged,
        slots,
        decided,
        completed);
  }

  Passage left(Duration decidedAt, boolean atItsEnd) {
    return new Passage(
        stage,
        start,
        end,
        holds,
        waited,
        loads,
        loadChanged,
        slots,
        Optional.of(decidedAt),
        atItsEnd);
  }
}
