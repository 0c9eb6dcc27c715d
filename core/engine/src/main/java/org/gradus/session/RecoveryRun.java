package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;

/**
 * How the exercise ended and how recovery goes. Immutable.
 *
 * @param exerciseEnd when the exercise ended
 * @param stopped whether a stop was followed, or given by the tester, to end it
 * @param skipped how long the stages of recovery last that were skipped to let the person rest
 * @param loads what is set in each stage of recovery
 * @param slots its readings by due time
 */
record RecoveryRun(
    Optional<Duration> exerciseEnd,
    boolean stopped,
    Duration skipped,
    List<List<Loading>> loads,
    ReadingSlots slots) {

  /** The exercise has not ended. */
  static final RecoveryRun NONE =
      new RecoveryRun(Optional.empty(), false, Duration.ZERO, List.of(), ReadingSlots.EMPTY);

  RecoveryRun stoppedExercise() {
    return new RecoveryRun(exerciseEnd, true, skipped, loads, slots);
  }

  RecoveryRun after(Duration exercise) {
    return new RecoveryRun(Optional.of(exercise), stopped, skipped, loads, slots);
  }

  RecoveryRun begun(Duration skip, List<List<Loading>> set) {
    return new RecoveryRun(exerciseEnd, stopped, skip, List.copyOf(set), slots);
  }

  RecoveryRun with(ReadingSlots filled) {
    return new RecoveryRun(exerciseEnd, stopped, skipped, loads, filled);
  }
}
