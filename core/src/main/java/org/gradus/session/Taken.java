package org.gradus.session;

import java.time.Duration;
import org.gradus.unit.Quantity;

/**
 * A single reading as the course keeps it.
 *
 * @param value in the base unit of its kind; for a choice the index of the option, for a condition
 *     1 or 0
 * @param half half the step to which it was read
 * @param shown as it was given
 * @param time when it was taken
 */
record Taken(double value, double half, String shown, Duration time) {

  static Taken of(Quantity quantity, double half, Duration time) {
    return new Taken(quantity.base(), half, quantity.toString(), time);
  }
}
