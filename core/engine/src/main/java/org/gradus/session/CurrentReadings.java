package org.gradus.session;

import java.time.Duration;
import java.util.HashMap;
import java.util.Map;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stretch;

/**
 * The latest readings of recovery that are still current: a reading is current until the next one
 * is overdue. An old reading does not show that somebody has recovered. Cautions and stops use the
 * latest reading, however old it is.
 */
final class CurrentReadings {

  private CurrentReadings() {}

  static Map<String, StoredReading> of(TestState state, Duration time) {
    Recovery recovery = state.protocol.recovery().orElseThrow();
    Duration start = state.recovery.exerciseEnd().orElse(time);
    Stretch whole = Stretch.of(recovery.atMost());
    Map<String, StoredReading> standing = new HashMap<>();
    state
        .readings
        .latest()
        .forEach(
            (signal, taken) -> {
              boolean overdue =
                  recovery.schedule().lines().stream()
                      .filter(line -> line.reads(signal))
                      .anyMatch(line -> isMissed(line, whole, start, taken, time));
              if (!overdue) {
                standing.put(signal, taken);
              }
            });
    return standing;
  }

  // Whether a reading was due after this one and is late by now.
  private static boolean isMissed(
      MeasureLine line, Stretch recovery, Duration start, StoredReading taken, Duration time) {
    // At the very end of its time a reading may still come.
    Duration late = time.minus(line.takes()).minus(line.within()).minusMillis(1);
    return line.lastDue(recovery, late.minus(start))
        .map(start::plus)
        .filter(due -> due.compareTo(taken.time().plus(line.within())) > 0)
        .isPresent();
  }
}
