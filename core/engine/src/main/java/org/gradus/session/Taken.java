package org.gradus.session;

import java.time.Duration;
import java.util.List;
import org.gradus.rule.plan.Frame;

/**
 * A single reading as the course keeps it.
 *
 * @param value in the base unit of its kind; for a choice the index of the option, for a condition
 *     1 or 0
 * @param half half the step to which it was read
 * @param time when it was taken
 */
record Taken(double value, double half, Duration time) {

  void fill(Frame frame, int slot) {
    frame.set(slot, value, half, time.toMillis() / 1000.0);
  }

  /** The mean of readings in the order in which they were told. */
  static Taken mean(List<Taken> readings) {
    double value = readings.stream().mapToDouble(Taken::value).average().orElseThrow();
    // No step of the mean can be coarser than the coarsest of its readings.
    double half = readings.stream().mapToDouble(Taken::half).max().orElse(0);
    return new Taken(value, half, readings.get(readings.size() - 1).time());
  }
}
