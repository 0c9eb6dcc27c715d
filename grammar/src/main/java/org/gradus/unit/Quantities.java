package org.gradus.unit;

/** Short ways to write quantities in Java: {@code bpm(68)}, {@code kg(71)}. */
public final class Quantities {

  private Quantities() {}

  /** Beats per minute. */
  public static Quantity bpm(double amount) {
    return Quantity.of(amount, Unit.BPM);
  }

  /** Millimetres of mercury. */
  public static Quantity mmHg(double amount) {
    return Quantity.of(amount, Unit.MMHG);
  }

  /** Kilograms. */
  public static Quantity kg(double amount) {
    return Quantity.of(amount, Unit.KILOGRAM);
  }

  /** Centimetres. */
  public static Quantity cm(double amount) {
    return Quantity.of(amount, Unit.CENTIMETRE);
  }

  /** Miles per hour. */
  public static Quantity mph(double amount) {
    return Quantity.of(amount, Unit.MPH);
  }

  /** Per cent. */
  public static Quantity percent(double amount) {
    return Quantity.of(amount, Unit.PERCENT);
  }

  /** Hours. */
  public static Quantity hours(double amount) {
    return Quantity.of(amount, Unit.HOUR);
  }

  /** A plain number, such as a rating. */
  public static Quantity number(double amount) {
    return Quantity.of(amount, Unit.ONE);
  }
}
