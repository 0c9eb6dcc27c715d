package org.gradus.rule.bounds;

import java.util.function.DoubleUnaryOperator;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.unit.Quantity;

/**
 * All numbers a part could come to, and whether it could be unknown. An operation that has no value
 * somewhere in the range, or could overflow, may be unknown; so an infinite end always goes with an
 * unknown.
 */
record Interval(double low, double high, Presence presence) {

  static final Interval NOTHING =
      new Interval(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Presence.UNKNOWN);
  static final Interval ANYTHING =
      new Interval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Presence.MAYBE);

  // An infinite end of a cell stands for any reading, and none lies farther out than the largest
  // number a text can hold. With true infinities nothing could be said of overflow.
  private static final double FARTHEST = 1e15;

  static Interval point(double number) {
    return new Interval(number, number, Presence.KNOWN);
  }

  static Interval of(Cell cell) {
    Cell.Range range = (Cell.Range) cell;
    if (range.presence() == Presence.UNKNOWN) {
      return NOTHING;
    }
    return new Interval(
        Double.isInfinite(range.low()) ? Math.copySign(FARTHEST, range.low()) : range.low(),
        Double.isInfinite(range.high()) ? Math.copySign(FARTHEST, range.high()) : range.high(),
        range.presence());
  }

  boolean isEmpty() {
    return low > high;
  }

  // From the least to the greatest of some results, of which one that is no number may be any.
  private Interval spanning(boolean mayLack, double... results) {
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (double result : results) {
      least = Math.min(least, Double.isNaN(result) ? Double.NEGATIVE_INFINITY : result);
      most = Math.max(most, Double.isNaN(result) ? Double.POSITIVE_INFINITY : result);
    }
    boolean overflows = Double.isInfinite(least) || Double.isInfinite(most);
    return new Interval(
        least, most, Presence.of(true, presence.canBeUnknown() || mayLack || overflows));
  }

  Interval orUnknown() {
    return isEmpty() ? this : new Interval(low, high, Presence.MAYBE);
  }

  Interval join(Interval other) {
    if (isEmpty() || other.isEmpty()) {
      return (isEmpty() ? other : this).orUnknown();
    }
    return spanning(other.presence.canBeUnknown(), low, high, other.low, other.high);
  }

  Interval negative() {
    return isEmpty() ? this : new Interval(-high, -low, presence);
  }

  Interval combine(Operator operator, Interval other) {
    if (isEmpty() || other.isEmpty()) {
      return NOTHING;
    }
    if (operator == Operator.OVER && other.low <= 0 && other.high >= 0) {
      return ANYTHING;
    }
    return spanning(
        other.presence.canBeUnknown(),
        apply(operator, low, other.low),
        apply(operator, low, other.high),
        apply(operator, high, other.low),
        apply(operator, high, other.high));
  }

  private static double apply(Operator operator, double a, double b) {
    return switch (operator) {
      case PLUS -> a + b;
      case MINUS -> a - b;
      case TIMES -> a * b;
      case OVER -> a / b;
    };
  }

  /** A function that nowhere falls. */
  Interval rising(DoubleUnaryOperator function) {
    return isEmpty()
        ? this
        : spanning(false, function.applyAsDouble(low), function.applyAsDouble(high));
  }

  Interval power(Interval exponent) {
    if (isEmpty() || exponent.isEmpty()) {
      return NOTHING;
    }
    boolean whole =
        exponent.low == exponent.high
            && exponent.low == Math.rint(exponent.low)
            && exponent.low >= 0;
    if (!whole && low <= 0) {
      return ANYTHING;
    }
    double start = StrictMath.pow(low, exponent.low);
    // An even power has its least value inside, at zero.
    boolean dips = whole && exponent.low % 2 == 0 && exponent.low > 0 && low < 0 && high > 0;
    return spanning(
        exponent.presence.canBeUnknown(),
        start,
        StrictMath.pow(low, exponent.high),
        StrictMath.pow(high, exponent.low),
        StrictMath.pow(high, exponent.high),
        dips ? 0 : start);
  }

  Interval function(Function function) {
    if (isEmpty()) {
      return this;
    }
    return switch (function) {
      case ABS ->
          low >= 0
              ? this
              : high <= 0 ? negative() : new Interval(0, Math.max(-low, high), presence);
      case EXP -> rising(StrictMath::exp);
      case LN -> high <= 0 ? NOTHING : withoutNegatives().rising(StrictMath::log);
      case SQRT -> high < 0 ? NOTHING : withoutNegatives().rising(StrictMath::sqrt);
      default -> throw new IllegalStateException("not a function of one number: " + function);
    };
  }

  private Interval withoutNegatives() {
    return low >= 0 ? this : new Interval(0, high, Presence.MAYBE);
  }

  Interval lesser(Interval other) {
    return isEmpty() || other.isEmpty()
        ? NOTHING
        : spanning(
            other.presence.canBeUnknown(), Math.min(low, other.low), Math.min(high, other.high));
  }

  Interval greater(Interval other) {
    return isEmpty() || other.isEmpty()
        ? NOTHING
        : spanning(
            other.presence.canBeUnknown(), Math.max(low, other.low), Math.max(high, other.high));
  }

  /** Rounded to a step: within half a step of what it was. */
  Interval rounded(Interval step) {
    if (isEmpty() || step.isEmpty()) {
      return NOTHING;
    }
    if (step.low != step.high || step.low <= 0) {
      return ANYTHING;
    }
    return spanning(
        step.presence.canBeUnknown(),
        Quantity.roundTo(low, step.low),
        Quantity.roundTo(high, step.low));
  }

  /** What a table gives: its extremes lie at the ends and at rows between them. */
  Interval through(Table table) {
    double first = table.points().get(0).x();
    double last = table.points().get(table.points().size() - 1).x();
    boolean refuses = table.beyond() == Table.Beyond.REFUSE;
    boolean outside = refuses && (table.isOutside(low) || table.isOutside(high));
    boolean before = high < first && table.isOutside(high);
    boolean behind = low > last && table.isOutside(low);
    if (isEmpty() || (refuses && (before || behind))) {
      return NOTHING;
    }
    double from = Math.max(low, first);
    double to = Math.min(high, last);
    double[] ends = {table.at(Math.min(from, last)), table.at(Math.max(to, first))};
    double least = Math.min(ends[0], ends[1]);
    double most = Math.max(ends[0], ends[1]);
    for (Table.Point point : table.points()) {
      if (point.x() >= from && point.x() <= to) {
        least = Math.min(least, point.y());
        most = Math.max(most, point.y());
      }
    }
    return spanning(outside, least, most);
  }

  Outcomes isBelow(Interval other) {
    return compared(
        other,
        low < other.high && !Quantity.same(low, other.high),
        high > other.low || Quantity.same(high, other.low));
  }

  Outcomes isAtMost(Interval other) {
    return compared(
        other,
        low < other.high || Quantity.same(low, other.high),
        high > other.low && !Quantity.same(high, other.low));
  }

  Outcomes isEqualTo(Interval other) {
    boolean overlap = isAtMost(other).canHold() && other.isAtMost(this).canHold();
    boolean samePoint = low == high && other.low == other.high && Quantity.same(low, other.low);
    return compared(other, overlap, !samePoint);
  }

  private Outcomes compared(Interval other, boolean canHold, boolean canFail) {
    if (isEmpty() || other.isEmpty()) {
      return Outcomes.UNKNOWN;
    }
    return new Outcomes(canHold, canFail, presence.canBeUnknown() || other.presence.canBeUnknown());
  }
}
