package org.gradus.rule.bounds;

import java.util.function.DoubleBinaryOperator;
import java.util.function.DoubleUnaryOperator;
import org.gradus.rule.check.Table;
import org.gradus.unit.Quantity;

/**
 * All numbers that a value could have, and whether it could be unknown. An operation that has no
 * value somewhere in the range, or could overflow, may be unknown; so an infinite end always goes
 * with an unknown.
 *
 * @param low the lowest number; above {@code high} when there is no number at all
 * @param high the highest number
 * @param presence whether there is a number
 */
public record NumberRange(double low, double high, Presence presence) {

  /** No number: the value is unknown. */
  public static final NumberRange UNKNOWN =
      new NumberRange(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Presence.UNKNOWN);

  /** Any number, or unknown. */
  public static final NumberRange ANYTHING =
      new NumberRange(Double.NEGATIVE_INFINITY, Double.POSITIVE_INFINITY, Presence.MAYBE);

  /** Neither a number nor unknown: what there is before the first interval is joined to it. */
  public static final NumberRange NONE =
      new NumberRange(Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Presence.KNOWN);

  // An infinite end of a cell stands for any reading, and none lies farther out than the largest
  // number a text can hold. With true infinities nothing could be said of overflow.
  private static final double FARTHEST = 1e15;

  /** One number. */
  public static NumberRange point(double number) {
    return new NumberRange(number, number, Presence.KNOWN);
  }

  /** The numbers of a cell. */
  public static NumberRange of(Cell cell) {
    Cell.Range range = (Cell.Range) cell;
    if (range.presence() == Presence.UNKNOWN) {
      return UNKNOWN;
    }
    return new NumberRange(
        Double.isInfinite(range.low()) ? Math.copySign(FARTHEST, range.low()) : range.low(),
        Double.isInfinite(range.high()) ? Math.copySign(FARTHEST, range.high()) : range.high(),
        range.presence());
  }

  /** Whether there is no number in it. */
  public boolean isEmpty() {
    return low > high;
  }

  // From the least to the greatest of four results, of which one that is no number may be any.
  private NumberRange spanning(boolean mayLack, double a, double b, double c, double d) {
    double least = Math.min(Math.min(lowest(a), lowest(b)), Math.min(lowest(c), lowest(d)));
    double most = Math.max(Math.max(highest(a), highest(b)), Math.max(highest(c), highest(d)));
    boolean overflows = Double.isInfinite(least) || Double.isInfinite(most);
    return new NumberRange(
        least, most, Presence.of(true, presence.canBeUnknown() || mayLack || overflows));
  }

  private static double lowest(double result) {
    return Double.isNaN(result) ? Double.NEGATIVE_INFINITY : result;
  }

  private static double highest(double result) {
    return Double.isNaN(result) ? Double.POSITIVE_INFINITY : result;
  }

  // The same for an operation whose extremes over two ranges lie at their ends.
  private NumberRange atEnds(NumberRange other, DoubleBinaryOperator operation) {
    return isEmpty() || other.isEmpty()
        ? UNKNOWN
        : spanning(
            other.presence.canBeUnknown(),
            operation.applyAsDouble(low, other.low),
            operation.applyAsDouble(low, other.high),
            operation.applyAsDouble(high, other.low),
            operation.applyAsDouble(high, other.high));
  }

  /** The same numbers, or unknown. */
  public NumberRange orUnknown() {
    return isEmpty() ? UNKNOWN : new NumberRange(low, high, Presence.MAYBE);
  }

  /** What either could be. */
  public NumberRange join(NumberRange other) {
    boolean unknown = presence.canBeUnknown() || other.presence.canBeUnknown();
    if (isEmpty() || other.isEmpty()) {
      NumberRange numbers = isEmpty() ? other : this;
      return unknown ? numbers.orUnknown() : numbers;
    }
    return spanning(unknown, low, high, other.low, other.high);
  }

  /** The numbers with the other sign. */
  public NumberRange negative() {
    return isEmpty() ? this : new NumberRange(-high, -low, presence);
  }

  /** The sums. */
  public NumberRange plus(NumberRange other) {
    return atEnds(other, Double::sum);
  }

  /** The differences. */
  public NumberRange minus(NumberRange other) {
    return atEnds(other, (a, b) -> a - b);
  }

  /** The products. */
  public NumberRange times(NumberRange other) {
    return atEnds(other, (a, b) -> a * b);
  }

  /** The quotients; anything where a divisor could be zero. */
  public NumberRange over(NumberRange other) {
    boolean zero = other.low <= 0 && other.high >= 0;
    return zero && !isEmpty() ? ANYTHING : atEnds(other, (a, b) -> a / b);
  }

  /** The lower of each two. */
  public NumberRange lesser(NumberRange other) {
    return atEnds(other, Math::min);
  }

  /** The higher of each two. */
  public NumberRange greater(NumberRange other) {
    return atEnds(other, Math::max);
  }

  /** What a function that falls nowhere gives. */
  public NumberRange rising(DoubleUnaryOperator function) {
    if (isEmpty()) {
      return this;
    }
    double first = function.applyAsDouble(low);
    double last = function.applyAsDouble(high);
    return spanning(false, first, last, first, last);
  }

  /** The powers. */
  public NumberRange power(NumberRange exponent) {
    if (isEmpty() || exponent.isEmpty()) {
      return UNKNOWN;
    }
    boolean whole =
        exponent.low == exponent.high
            && exponent.low == Math.rint(exponent.low)
            && exponent.low >= 0;
    if (!whole && low <= 0) {
      return ANYTHING;
    }
    NumberRange powers = atEnds(exponent, StrictMath::pow);
    // An even power has its least value inside, at zero.
    boolean dips = whole && exponent.low % 2 == 0 && exponent.low > 0 && low < 0 && high > 0;
    return dips ? powers.join(point(0)) : powers;
  }

  /** The distances from zero. */
  public NumberRange absolute() {
    if (isEmpty() || low >= 0) {
      return this;
    }
    return high <= 0 ? negative() : new NumberRange(0, Math.max(-low, high), presence);
  }

  /** The exponentials. */
  public NumberRange exponential() {
    return rising(StrictMath::exp);
  }

  /** The natural logarithms; zero and less have none. */
  public NumberRange logarithm() {
    return high <= 0 ? UNKNOWN : withoutNegatives().rising(StrictMath::log);
  }

  /** The square roots; less than zero has none. */
  public NumberRange root() {
    return high < 0 ? UNKNOWN : withoutNegatives().rising(StrictMath::sqrt);
  }

  private NumberRange withoutNegatives() {
    return low >= 0 ? this : new NumberRange(0, high, Presence.MAYBE);
  }

  /** The numbers rounded to a step: within half a step of what they were. */
  public NumberRange rounded(NumberRange step) {
    if (isEmpty() || step.isEmpty()) {
      return UNKNOWN;
    }
    return step.low != step.high || step.low <= 0 ? ANYTHING : atEnds(step, Quantity::roundTo);
  }

  /** What a table gives: its extremes lie at the ends and at rows between them. */
  public NumberRange through(Table table) {
    double first = table.points().get(0).x();
    double last = table.points().get(table.points().size() - 1).x();
    boolean refuses = table.beyond() == Table.Beyond.REFUSE;
    boolean outside = refuses && (table.isOutside(low) || table.isOutside(high));
    boolean before = high < first && table.isOutside(high);
    boolean behind = low > last && table.isOutside(low);
    if (isEmpty() || (refuses && (before || behind))) {
      return UNKNOWN;
    }
    double from = Math.max(low, first);
    double to = Math.min(high, last);
    double start = table.at(Math.min(from, last));
    double end = table.at(Math.max(to, first));
    double least = Math.min(start, end);
    double most = Math.max(start, end);
    for (Table.Point point : table.points()) {
      if (point.x() >= from && point.x() <= to) {
        least = Math.min(least, point.y());
        most = Math.max(most, point.y());
      }
    }
    return spanning(outside, least, most, least, most);
  }

  /** Whether a number of this one is below a number of the other. */
  public Outcomes isBelow(NumberRange other) {
    return compared(
        other,
        low < other.high && !Quantity.same(low, other.high),
        high > other.low || Quantity.same(high, other.low));
  }

  /** Whether a number of this one is below or equal to a number of the other. */
  public Outcomes isAtMost(NumberRange other) {
    return compared(
        other,
        low < other.high || Quantity.same(low, other.high),
        high > other.low && !Quantity.same(high, other.low));
  }

  /** Whether a number of this one is equal to a number of the other. */
  public Outcomes isEqualTo(NumberRange other) {
    boolean overlap = isAtMost(other).canHold() && other.isAtMost(this).canHold();
    boolean samePoint = low == high && other.low == other.high && Quantity.same(low, other.low);
    return compared(other, overlap, !samePoint);
  }

  private Outcomes compared(NumberRange other, boolean canHold, boolean canFail) {
    if (isEmpty() || other.isEmpty()) {
      return Outcomes.UNKNOWN;
    }
    return new Outcomes(canHold, canFail, presence.canBeUnknown() || other.presence.canBeUnknown());
  }
}
