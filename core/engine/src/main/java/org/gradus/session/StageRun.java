package org.gradus.session;

import java.time.Duration;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Stretch;
import org.gradus.protocol.Timing;
import org.gradus.protocol.Unmeasured;

/**
 * One stage of a test, in progress or done.
 *
 * @param stage the stage
 * @param start when it began, since the start of the session
 * @param end when the next decision is due; moves with every hold, and when it is done
 * @param changes how often its load was changed before it began anew
 * @param holds how often it was held
 * @param waited how long missing readings were waited for at earlier ends
 * @param loads what is set
 * @param loadChanged when something else was set than the protocol says
 * @param slots the readings that count for a due time
 * @param done when what was to be done was done
 * @param decided the due time at which its last decision was made, since its start, once it is left
 * @param completed whether it was left at its end and not broken off
 * @param named the readings of this stage that have a name of their own, by that name
 */
record StageRun(
    Stage stage,
    Duration start,
    Duration end,
    int changes,
    int holds,
    Duration waited,
    List<Loading> loads,
    Optional<Duration> loadChanged,
    ReadingSlots slots,
    Optional<Duration> done,
    Optional<Duration> decided,
    boolean completed,
    Map<String, StoredReading> named) {

  StageRun {
    loads = List.copyOf(loads);
  }

  static StageRun begin(Stage stage, List<Loading> loads, Duration at) {
    return new StageRun(
        stage,
        at,
        at.plus(stage.lasts()),
        0,
        0,
        Duration.ZERO,
        loads,
        Optional.empty(),
        ReadingSlots.EMPTY,
        Optional.empty(),
        Optional.empty(),
        false,
        Map.of());
  }

  /** How long it has lasted. */
  Duration since(Duration time) {
    return time.minus(start);
  }

  /** How long the person has been at it: a stage that is done lasts no longer. */
  Duration lasted(Duration time) {
    return since(done.filter(reached -> reached.compareTo(time) < 0).orElse(time));
  }

  /** How long it lasts, as far as readings are timed by it. */
  Stretch stretch() {
    return done.isPresent() ? new Stretch(since(done.get()), Stretch.End.DONE) : stage.stretch();
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

  /**
   * The due times for which its end can be decided, newest first: its end, and later times at which
   * repeated readings are due.
   *
   * @param until up to when, since the start of the session
   */
  List<Duration> ends(Schedule schedule, Duration until) {
    Set<Duration> ends = new TreeSet<>(Comparator.reverseOrder());
    ends.add(endInStage());
    for (MeasureLine line : schedule.lines()) {
      if (line.timing() instanceof Timing.Each) {
        line.due(stretch(), since(until)).stream()
            .filter(due -> due.compareTo(endInStage()) > 0)
            .forEach(ends::add);
      }
    }
    return List.copyOf(ends);
  }

  Optional<StoredReading> slot(String signal, Duration due) {
    return slots.at(signal, due);
  }

  /** The load from a second on. */
  List<Loading> loadsFrom(Duration time) {
    return isRamp() ? loads.stream().map(load -> load.from(since(time))).toList() : loads;
  }

  /** The load up to a second. */
  List<Loading> loadsUntil(Duration time) {
    return isRamp() ? loads.stream().map(load -> load.until(since(time))).toList() : loads;
  }

  /** Whether a load changes while the stage lasts. */
  boolean isRamp() {
    for (Loading load : loads) {
      if (load.ramp().isPresent()) {
        return true;
      }
    }
    return false;
  }

  /** Whether a reading was taken under the load that is set now. */
  boolean isUnderThisLoad(StoredReading taken) {
    return loadChanged.isEmpty() || taken.time().compareTo(loadChanged.get()) > 0;
  }

  /** With a reading in a slot. */
  StageRun with(String signal, MeasureLine line, Duration due, StoredReading taken) {
    return changed(
        end,
        holds,
        waited,
        loads,
        loadChanged,
        slots.with(signal, line, start, due, taken),
        done,
        named);
  }

  /** With readings that have names of their own. */
  StageRun withNamed(Map<String, StoredReading> readings) {
    return changed(end, holds, waited, loads, loadChanged, slots, done, readings);
  }

  /** With another load. Readings under the old one say nothing about it: the slots start again. */
  StageRun with(List<Loading> others, Duration at) {
    return changed(end, holds, waited, others, Optional.of(at), ReadingSlots.EMPTY, done, Map.of());
  }

  /** Begun anew after so many changes of its load. */
  StageRun changed(int times) {
    return new StageRun(
        stage,
        start,
        end,
        times,
        holds,
        waited,
        loads,
        loadChanged,
        slots,
        done,
        decided,
        completed,
        named);
  }

  /** Done at a time, at which it is due to end. */
  StageRun doneAt(Duration reached) {
    return changed(reached, holds, waited, loads, loadChanged, slots, Optional.of(reached), named);
  }

  /** Held until a new end. The time since the old end was spent waiting for readings. */
  StageRun held(Duration newEnd, Duration at) {
    Duration late = at.compareTo(end) > 0 ? at.minus(end) : Duration.ZERO;
    // A stage that was held because it wrongly seemed done may last as long as before.
    boolean open = stage.untilDone() && done.isEmpty() && newEnd.compareTo(end) < 0;
    return changed(
        open ? end : newEnd, holds + 1, waited.plus(late), loads, loadChanged, slots, done, named);
  }

  private StageRun changed(
      Duration newEnd,
      int newHolds,
      Duration newWaited,
      List<Loading> newLoads,
      Optional<Duration> newLoadChanged,
      ReadingSlots newSlots,
      Optional<Duration> newDone,
      Map<String, StoredReading> newNamed) {
    return new StageRun(
        stage,
        start,
        newEnd,
        changes,
        newHolds,
        newWaited,
        newLoads,
        newLoadChanged,
        newSlots,
        newDone,
        decided,
        completed,
        newNamed);
  }

  /** Left for the next stage or for recovery. */
  StageRun left(Duration decidedAt, boolean atItsEnd) {
    boolean gone = atItsEnd && (!stage.untilDone() || done.isPresent());
    return new StageRun(
        stage,
        start,
        end,
        changes,
        holds,
        waited,
        loads,
        loadChanged,
        slots,
        done,
        Optional.of(decidedAt),
        gone,
        named);
  }
}
