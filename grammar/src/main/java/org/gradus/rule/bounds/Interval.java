package org.gradus.rule.bounds;

import java.util.function.DoubleUnaryOperator;
import org.gradus.rule.check.Function;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.unit.Quantity;

/**
 * All numbers a part could come to, and whether it could be unknown. Ends may be infinite; an
 * operation that could overflow or has no value somewhere in the range may be unknown.
 */
record Interval(double low, double high, Presence presence) {

  static final Interval NOTHING =
      new Interval(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Presence.UNKNOWN);

  static Interval point(double number) {
    return new Interval(number, number, Presence.KNOWN);
  }

  static Interval of(Cell cell) {
    Cell.Range range = (Cell.Range) cell;
    return range.presence() == Presence.UNKNOWN
        ? NOTHING
        : new Interval(range.low(), range.high(), range.presence());
  }

  boolean isEmpty() {
    return low > high;
  }

  private Interval between(double newLow, double newHigh, boolean mayLack) {
    boolean known = newLow <= newHigh;
    return known
        ? new Interval(newLow, newHigh, Presence.of(true, presence.canBeUnknown() || mayLack))
        : NOTHING;
  }

  Interval orUnknown(boolean mayLack) {
    return isEmpty()
        ? this
        : new Interval(low, high, Presence.of(true, presence.canBeUnknown() || mayLack));
  }

  Interval join(Interval other) {
    if (isEmpty() || other.isEmpty()) {
      Interval there = isEmpty() ? other : this;
      return there.orUnknown(true);
    }
    return new Interval(
        Math.min(low, other.low),
        Math.max(high, other.high),
        Presence.of(true, presence.canBeUnknown() || other.presence.canBeUnknown()));
  }

  Interval negative() {
    return isEmpty() ? this : new Interval(-high, -low, presence);
  }

  Interval combine(Operator operator, Interval other) {
    if (isEmpty() || other.isEmpty()) {
      return NOTHING;
    }
    boolean zeroBelow = operator == Operator.OVER && other.low <= 0 && other.high >= 0;
    if (zeroBelow) {
      return new Interval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Presence.MAYBE);
    }
    double[] corners = {
      apply(operator, low, other.low),
      apply(operator, low, other.high),
      apply(operator, high, other.low),
      apply(operator, high, other.high)
    };
    double least = Double.POSITIVE_INFINITY;
    double most = Double.NEGATIVE_INFINITY;
    for (double corner : corners) {
      // infinity - infinity, 0 * infinity: the ends say nothing, anything is possible
      least = Math.min(least, Double.isNaN(corner) ? Double.NEGATIVE_INFINITY : corner);
      most = Math.max(most, Double.isNaN(corner) ? Double.POSITIVE_INFINITY : corner);
    }
    boolean mayLack = other.presence.canBeUnknown() || overflows(other, least, most);
    return between(least, most, mayLack);
  }

  // Finite ends that give an infinite end can overflow. Infinite ends stand for "any reading", and
  // readings are bounded by what is physically possible.
  private boolean overflows(Interval other, double least, double most) {
    boolean finite = isFinite() && other.isFinite();
    return finite && (Double.isInfinite(least) || Double.isInfinite(most));
  }

  private boolean isFinite() {
    return Double.isFinite(low) && Double.isFinite(high);
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
        : new Interval(function.applyAsDouble(low), function.applyAsDouble(high), presence);
  }

  Interval power(Interval exponent) {
    if (isEmpty() || exponent.isEmpty()) {
      return NOTHING;
    }
    boolean unknown = exponent.presence.canBeUnknown();
    boolean whole =
        exponent.low == exponent.high
            && exponent.low == Math.rint(exponent.low)
            && exponent.low >= 0;
    if (!whole && low <= 0) {
      return new Interval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Presence.MAYBE);
    }
    double a = StrictMath.pow(low, exponent.low);
    double b = StrictMath.pow(low, exponent.high);
    double c = StrictMath.pow(high, exponent.low);
    double d = StrictMath.pow(high, exponent.high);
    boolean dips = whole && exponent.low % 2 == 0 && exponent.low > 0 && low < 0 && high > 0;
    double least = dips ? 0 : Math.min(Math.min(a, b), Math.min(c, d));
    double most = Math.max(Math.max(a, b), Math.max(c, d));
    return between(least, most, unknown || (isFinite() && Double.isInfinite(most)));
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
      case EXP ->
          between(
              StrictMath.exp(low),
              StrictMath.exp(high),
              Double.isFinite(high) && Double.isInfinite(StrictMath.exp(high)));
      case LN ->
          high <= 0
              ? NOTHING
              : between(
                  low <= 0 ? Double.NEGATIVE_INFINITY : StrictMath.log(low),
                  StrictMath.log(high),
                  low <= 0);
      case SQRT ->
          high < 0
              ? NOTHING
              : between(StrictMath.sqrt(Math.max(0, low)), StrictMath.sqrt(high), low < 0);
      default -> throw new IllegalStateException("not a function of one number: " + function);
    };
  }

  Interval lesser(Interval other) {
    return isEmpty() || other.isEmpty()
        ? NOTHING
        : between(
            Math.min(low, other.low), Math.min(high, other.high), other.presence.canBeUnknown());
  }

  Interval greater(Interval other) {
    return isEmpty() || other.isEmpty()
        ? NOTHING
        : between(
            Math.max(low, other.low), Math.max(high, other.high), other.presence.canBeUnknown());
  }

  /** Rounded to a step: within half a step of what it was. */
  Interval rounded(Interval step) {
    if (isEmpty() || step.isEmpty()) {
      return NOTHING;
    }
    if (step.low != step.high || step.low <= 0) {
      return new Interval(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Presence.MAYBE);
    }
    return new Interval(
        round(low, step.low),
        round(high, step.low),
        Presence.of(true, presence.canBeUnknown() || step.presence.canBeUnknown()));
  }

  private static double round(double x, double step) {
    return Double.isInfinite(x) ? x : Quantity.roundTo(x, step);
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
      return new Outcomes(false, false, true);
    }
    return new Outcomes(canHold, canFail, presence.canBeUnknown() || other.presence.canBeUnknown());
  }
}
