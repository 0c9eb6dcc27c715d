package org.gradus.unit;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.List;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.words.Language;
import org.gradus.words.Spoken;

/**
 * An amount with the unit it was written in.
 *
 * <p>{@code Quantity.of(1.7, Unit.MPH)} prints as {@code 1.7 mph} and computes as 45.59808 m/min.
 * Two quantities are {@code equals} when amount and unit are; {@link #isSameAs} compares what they
 * measure.
 *
 * @param amount any finite number
 * @param unit the unit of the amount
 */
public record Quantity(double amount, Unit unit) implements Spoken {

  // Two values this close, relative to the larger, count as equal: far finer than any reading and
  // far coarser than the rounding of a few conversions.
  private static final double SAME = 1e-9;

  // Few digits first. No more than 15: every decimal of so many digits survives as a double.
  private static final List<MathContext> SHORT_FIRST =
      List.of(new MathContext(6), new MathContext(12), new MathContext(15));

  /**
   * @throws ValueRefused when the amount is infinite or not a number
   */
  public Quantity {
    requireNonNull(unit, "unit");
    if (!Double.isFinite(amount)) {
      throw new ValueRefused(
          "an amount" + (unit == Unit.ONE ? "" : " in " + unit.symbol()),
          Double.toString(amount),
          "give a finite number");
    }
  }

  /** An amount of a unit. */
  public static Quantity of(double amount, Unit unit) {
    requireNonNull(unit, "unit");
    return new Quantity(amount, unit);
  }

  /**
   * The quantity whose amount in the base unit of its kind is given, shown in {@code unit}. Of the
   * amounts that read back to the same base a short decimal is taken where there is one: 45.59808
   * m/min in mph are 1.7, as they were written, and not 1.6999999999999997.
   */
  public static Quantity ofBase(double base, Unit unit) {
    double amount = unit.fromBase(base);
    if (unit != unit.kind().base() && Double.isFinite(amount)) {
      for (MathContext digits : SHORT_FIRST) {
        double decimal = new BigDecimal(amount, digits).doubleValue();
        if (unit.toBase(decimal) == base) {
          return new Quantity(decimal, unit);
        }
      }
    }
    return new Quantity(amount, unit);
  }

  /** What this is a measure of. */
  public Kind kind() {
    return unit.kind();
  }

  /** The amount in the base unit of the kind, in which everything is computed. */
  public double base() {
    return unit.toBase(amount);
  }

  /**
   * The amount in another unit of the same kind.
   *
   * @throws ValueRefused when the other unit measures another kind
   */
  public double in(Unit other) {
    if (other.kind() != kind()) {
      throw new ValueRefused(
          this.toString(),
          "given in " + (other == Unit.ONE ? "plain numbers" : other.symbol()),
          "it is " + kind().phrase() + ", not " + other.kind().phrase());
    }
    return other == unit ? amount : other.fromBase(base());
  }

  /** Whether both measure the same, up to one part in a thousand million: 1 h and 60 min do. */
  public boolean isSameAs(Quantity other) {
    return kind() == other.kind() && same(base(), other.base());
  }

  /** Whether two numbers are equal up to one part in a thousand million of the larger. */
  public static boolean same(double a, double b) {
    double apart = Math.abs(a - b);
    // Infinity is nothing's neighbour: a part of it is infinite too and would span any distance.
    return a == b || (Double.isFinite(apart) && apart <= SAME * Math.max(Math.abs(a), Math.abs(b)));
  }

  /** Whether a number lies below another and is not the same; not where one is not a number. */
  public static boolean isBelow(double a, double b) {
    double apart = b - a;
    return apart > SAME * Math.abs(a) && apart > SAME * Math.abs(b);
  }

  /** The multiple of a step nearest to a number; half a step goes upwards. */
  public static double roundTo(double number, double step) {
    double size = Math.abs(step);
    double steps = number / size;
    double below = Math.floor(steps);
    // A half that a conversion has put a hair below is a half all the same.
    boolean up = steps - below > 0.5 || same(steps - below, 0.5);
    return (up ? below + 1 : below) * size;
  }

  /** This quantity with its amount rounded half up to so many decimals, for showing. */
  public Quantity rounded(int decimals) {
    return of(
        BigDecimal.valueOf(amount).setScale(decimals, RoundingMode.HALF_UP).doubleValue(), unit);
  }

  /** The quantity, with its unit in the language where the unit is a word: {@code "45 años"}. */
  @Override
  public String in(Language language) {
    requireNonNull(language, "language");
    return UnitWord.of(unit)
        .map(word -> plain(amount) + " " + language.say(word))
        .orElseGet(this::toString);
  }

  /**
   * The amount without superfluous digits and its unit: {@code "1.7 mph"}, {@code "10 %"}, {@code
   * "17"}.
   */
  @Override
  public String toString() {
    String number = plain(amount);
    return unit.symbol().isEmpty() ? number : number + " " + unit.symbol();
  }

  /**
   * A number as people write it: at most twelve significant digits, no exponent, no trailing zeros.
   */
  public static String plain(double number) {
    return new BigDecimal(number, new MathContext(12)).stripTrailingZeros().toPlainString();
  }
}
