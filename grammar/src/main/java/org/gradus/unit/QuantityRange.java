package org.gradus.unit;

import static java.util.Objects.requireNonNull;

/**
 * A range of quantities.
 *
 * @param low its lower end, included
 * @param high its upper end, included
 */
public record QuantityRange(Quantity low, Quantity high) {
  public QuantityRange {
    requireNonNull(high, "high");
    requireNonNull(low, "low");
  }

  /** Whether a value in the base unit lies in it. */
  public boolean holds(double value) {
    return value >= low.base() && value <= high.base();
  }

  @Override
  public String toString() {
    return low + " to " + high;
  }
}
