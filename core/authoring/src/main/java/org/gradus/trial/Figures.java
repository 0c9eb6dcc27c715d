package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * How one result is spread over the people of a trial, in the base unit of its kind.
 *
 * @param unit the unit to show it in
 * @param count how many people have it
 * @param sum all values together
 * @param squares the sum of their squares
 * @param lowest the lowest
 * @param highest the highest
 */
public record Figures(
    Unit unit, long count, double sum, double squares, double lowest, double highest)
    implements Serializable {
  public Figures {
    requireNonNull(unit, "unit");
  }

  static Figures of(Quantity value) {
    double base = value.base();
    return new Figures(value.unit(), 1, base, base * base, base, base);
  }

  Figures and(Figures other) {
    return new Figures(
        unit,
        count + other.count,
        sum + other.sum,
        squares + other.squares,
        Math.min(lowest, other.lowest),
        Math.max(highest, other.highest));
  }

  /** The mean, in the unit of the result. */
  public Quantity mean() {
    return Quantity.ofBase(sum / count, unit);
  }

  /** The standard deviation, in the base unit of the kind; NaN below two people. */
  public double spread() {
    return count < 2
        ? Double.NaN
        : Math.sqrt(Math.max(0, squares - sum * sum / count) / (count - 1));
  }
}
