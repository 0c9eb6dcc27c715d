package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import org.gradus.knowledge.Citation;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/**
 * What a component of a load can be at all: a speed beyond it is a slip of unit or keyboard.
 *
 * @param name {@code speed}, {@code grade}, {@code power} and so on
 * @param range what is possible, both ends included
 * @param source where that comes from
 */
public record LoadRange(String name, QuantityRange range, Citation source) {
  public LoadRange {
    requireNonNull(name, "name");
    requireNonNull(range, "range");
    requireNonNull(source, "source");
  }

  /** Whether a value in the base unit is possible; one that is an end but for rounding is. */
  public boolean holds(double value) {
    return isAtLeastLow(value) && isAtMostHigh(value);
  }

  /** Whether a value in the base unit does not lie below the range. */
  public boolean isAtLeastLow(double value) {
    return value >= range.low().base() || isButForRounding(value, range.low());
  }

  /** Whether a value in the base unit does not lie above the range. */
  public boolean isAtMostHigh(double value) {
    return value <= range.high().base() || isButForRounding(value, range.high());
  }

  // What is worked out to be zero is mostly something beside it, of which zero is no part: there
  // the width of the range is the measure.
  private boolean isButForRounding(double value, Quantity end) {
    double width = range.high().base() - range.low().base();
    return Quantity.same(value, end.base()) || Quantity.same(value - end.base() + width, width);
  }
}
