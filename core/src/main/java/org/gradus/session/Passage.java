package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
    List<Slot> slots,
    Optional<Duration> decided,
    boolean completed) {

  /**
   * A reading in its slot.
   *
   * @param signal which signal
   * @param due the due time it counts for, since the start of the stage
   * @param taken the reading
   */
  record Slot(String signal, Duration due, Taken taken) {}

  static Passage begin(Stage stage, List<Loading> loads, Duration at) {
    return new Passage(
        stage,
        at,
        at.plus(stage.lasts()),
        0,
        Duration.ZERO,
        loads,
        List.of(),
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
    for (Slot slot : slots) {
      if (slot.due().equals(due) && slot.signal().equals(signal)) {
        return Optional.of(slot.taken());
      }
    }
    return Optional.empty();
  }

  boolean hasAny(String signal) {
    return slots.stream().anyMatch(slot -> slot.signal().equals(signal));
  }

  /** With a reading in a slot; a later reading for the same slot takes its place. */
  Passage with(String signal, Duration due, Taken taken) {
    List<Slot> changed = new ArrayList<>(slots);
    changed.removeIf(slot -> slot.due().equals(due) && slot.signal().equals(signal));
    changed.add(new Slot(signal, due, taken));
    return new Passage(
        stage, start, end, holds, waited, loads, List.copyOf(changed), decided, completed);
  }

  // Readings under another load say nothing about this one: the slots start again from there.
  Passage with(Loading load) {
    List<Loading> changed = new ArrayList<>(loads);
    changed.removeIf(old -> old.name().equals(load.name()));
    changed.add(load);
    return new Passage(
        stage, start, end, holds, waited, List.copyOf(changed), List.of(), decided, completed);
  }

  Passage held(Duration newEnd, Duration spentWaiting) {
    return new Passage(
        stage,
        start,
        newEnd,
        holds + 1,
        waited.plus(spentWaiting),
        loads,
        slots,
        decided,
        completed);
  }

  Passage left(Duration decidedAt, boolean atItsEnd) {
    return new Passage(
        stage, start, end, holds, waited, loads, slots, Optional.of(decidedAt), atItsEnd);
  }
}
