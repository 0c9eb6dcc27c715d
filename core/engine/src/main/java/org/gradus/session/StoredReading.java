package org.gradus.session;

import java.time.Duration;
import java.util.List;
import org.gradus.rule.plan.Frame;

/**
 * A single reading as the state keeps it.
 *
 * @param value in the base unit of its kind; for a choice the index of the option, for a condition
 *     1 or 0
 * @param half half the step to which it was read
 * @param time when it was taken
 */
record StoredReading(double value, double half, Duration time) {

  void fill(Frame frame, int slot) {
    frame.set(slot, value, half, time.toMillis() / 1000.0);
  }

  /** The mean of readings in the order in which they were told. */
  static StoredReading mean(List<StoredReading> readings) {
    double value = readings.stream().mapToDouble(StoredReading::value).average().orElseThrow();
    // No step of the mean can be coarser than the coarsest of its readings.
    double half = readings.stream().mapToDouble(StoredReading::half).max().orElse(0);
    return new StoredReading(value, half, readings.get(readings.size() - 1).time());
  }
}
