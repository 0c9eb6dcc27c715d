package org.gradus.rule.plan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.function.Function;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** How values are shown to a person, with as many digits as are asked for. */
final class Shown {

  // What a person can take in at a glance, and what a comparison can tell apart.
  static final MathContext SHORT = new MathContext(6);
  static final MathContext FULL = new MathContext(12);

  private Shown() {}

  static String value(Type type, double value, MathContext digits) {
    return value(type, value, digits, Kind::base);
  }

  /** A value, in the unit in which those of its kind are shown here. */
  static String value(Type type, double value, MathContext digits, Function<Kind, Unit> units) {
    if (Double.isNaN(value)) {
      return "unknown";
    }
    return type.match(
        measure -> quantity(measure.kind(), value, digits, units),
        condition -> value != 0 ? "yes" : "no",
        choice -> choice.options().get((int) value));
  }

  private static String quantity(
      Kind kind, double value, MathContext digits, Function<Kind, Unit> units) {
    if (kind == Kind.TIME && value >= 0 && value == Math.rint(value)) {
      return time((long) value);
    }
    Unit unit = kind == Kind.TIME ? kind.base() : units.apply(kind);
    return Quantity.of(rounded(Quantity.ofBase(value, unit).amount(), digits), unit).toString();
  }

  static double rounded(double value, MathContext digits) {
    return new BigDecimal(value).round(digits).doubleValue();
  }

  // As on a stopwatch; from an hour on it is no time of a stage, and minutes would be misread.
  static String time(long seconds) {
    if (seconds >= 3600) {
      return seconds % 3600 == 0
          ? seconds / 3600 + " h"
          : seconds / 3600 + ":" + twoDigits(seconds / 60 % 60) + ":" + twoDigits(seconds % 60);
    }
    return seconds / 60 + ":" + twoDigits(seconds % 60);
  }

  private static String twoDigits(long number) {
    return Long.toString(100 + number).substring(1);
  }
}
