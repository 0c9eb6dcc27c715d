package org.gradus.unit;

import static java.util.Objects.requireNonNull;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * A unit of one {@link Kind}, with its exact factor to the base unit of the kind.
 *
 * <p>Sources of the factors: inch, foot, mile and pound are exact by the international yard and
 * pound agreement of 1959; standard gravity 9.80665 m/s<sup>2</sup> and the conventional millimetre
 * of mercury, 13.5951 x 9.80665 Pa, by ISO 80000-4; the thermochemical calorie of 4.184 J by NIST
 * SP 811. One MET is 3.5 mL/kg/min and one stepping cycle is four steps by the convention of the
 * trade.
 */
public enum Unit {
  /** No unit. */
  ONE(Kind.NUMBER, "", 1, 1),
  /** Per cent: {@code 10 %} is the number 0.10. */
  PERCENT(Kind.NUMBER, "%", 1, 100),
  /** Beats per minute. */
  BPM(Kind.HEART_RATE, "bpm", 1, 1),
  /** Millimetres of mercury. */
  MMHG(Kind.PRESSURE, "mmHg", 1, 1),
  /** Kilopascals. */
  KPA(Kind.PRESSURE, "kPa", 1000, 133.322387415),
  /** Seconds. */
  SECOND(Kind.TIME, "s", 1, 1),
  /** Minutes. */
  MINUTE(Kind.TIME, "min", 60, 1),
  /** Hours. */
  HOUR(Kind.TIME, "h", 3600, 1),
  /** Completed years of life. */
  YEAR(Kind.AGE, "years", 1, 1, "year"),
  /** Metres per minute. */
  METRE_PER_MINUTE(Kind.SPEED, "m/min", 1, 1),
  /** Miles per hour: 26.8224 m/min. */
  MPH(Kind.SPEED, "mph", 1609.344, 60),
  /** Kilometres per hour. */
  KMH(Kind.SPEED, "km/h", 1000, 60),
  /** Metres per second. */
  METRE_PER_SECOND(Kind.SPEED, "m/s", 60, 1),
  /** Watts. */
  WATT(Kind.POWER, "W", 1, 1),
  /** Kilogram-metres (kilopond-metres) per minute: 60/9.80665 of them are one watt. */
  KGM_PER_MINUTE(Kind.POWER, "kgm/min", 9.80665, 60),
  /** Newtons. */
  NEWTON(Kind.FORCE, "N", 1, 1),
  /** Kiloponds: the weight of one kilogram. */
  KILOPOND(Kind.FORCE, "kp", 9.80665, 1),
  /** Turns per minute. */
  RPM(Kind.PEDAL_RATE, "rpm", 1, 1),
  /** Stepping cycles per minute. */
  CYCLES_PER_MINUTE(Kind.STEP_RATE, "cycles/min", 1, 1),
  /** Single steps per minute. */
  STEPS_PER_MINUTE(Kind.STEP_RATE, "steps/min", 1, 4),
  /** Metres. */
  METRE(Kind.LENGTH, "m", 1, 1),
  /** Centimetres. */
  CENTIMETRE(Kind.LENGTH, "cm", 1, 100),
  /** Kilometres. */
  KILOMETRE(Kind.LENGTH, "km", 1000, 1),
  /** Inches. */
  INCH(Kind.LENGTH, "inch", 0.0254, 1),
  /** Feet. */
  FOOT(Kind.LENGTH, "foot", 0.3048, 1),
  /** Miles. */
  MILE(Kind.LENGTH, "mile", 1609.344, 1),
  /** Kilograms. */
  KILOGRAM(Kind.MASS, "kg", 1, 1),
  /** Pounds. */
  POUND(Kind.MASS, "lb", 0.45359237, 1),
  /** Millilitres of oxygen per kilogram and minute. */
  ML_PER_KG_PER_MINUTE(Kind.UPTAKE, "mL/kg/min", 1, 1),
  /** Metabolic equivalent: 3.5 mL/kg/min. */
  MET(Kind.UPTAKE, "MET", 3.5, 1),
  /** Millilitres of oxygen per minute. */
  ML_PER_MINUTE(Kind.ABSOLUTE_UPTAKE, "mL/min", 1, 1),
  /** Litres of oxygen per minute. */
  L_PER_MINUTE(Kind.ABSOLUTE_UPTAKE, "L/min", 1000, 1),
  /** Kilocalories. */
  KCAL(Kind.ENERGY, "kcal", 1, 1),
  /** Kilojoules. */
  KJ(Kind.ENERGY, "kJ", 1, 4.184),
  /** Kilocalories per minute. */
  KCAL_PER_MINUTE(Kind.ENERGY_RATE, "kcal/min", 1, 1),
  /** Kilojoules per minute. */
  KJ_PER_MINUTE(Kind.ENERGY_RATE, "kJ/min", 1, 4.184),
  /** Watts per kilogram of body mass. */
  WATT_PER_KG(Kind.POWER_PER_MASS, "W/kg", 1, 1),
  /** Times per minute: strokes, breaths. */
  PER_MINUTE(Kind.FREQUENCY, "/min", 1, 1),
  /** Hertz, times per second. */
  HERTZ(Kind.FREQUENCY, "Hz", 60, 1),
  /** Minutes for a kilometre. */
  MINUTE_PER_KM(Kind.PACE, "min/km", 1, 1),
  /** Minutes for a mile. */
  MINUTE_PER_MILE(Kind.PACE, "min/mile", 1000, 1609.344),
  /** Newton metres. */
  NEWTON_METRE(Kind.TORQUE, "Nm", 1, 1),
  /** Degrees of an angle. */
  DEGREE(Kind.ANGLE, "deg", 1, 1),
  /** Litres. */
  LITRE(Kind.VOLUME, "L", 1, 1),
  /** Litres of air per minute; {@code L/min} is oxygen. */
  L_PER_MINUTE_BTPS(Kind.VENTILATION, "L/min_BTPS", 1, 1),
  /** Millimoles per litre. */
  MMOL_PER_L(Kind.CONCENTRATION, "mmol/L", 1, 1),
  /** Milligrams per decilitre. */
  MG_PER_DL(Kind.MASS_CONCENTRATION, "mg/dL", 1, 1),
  /** Grams per litre. */
  G_PER_L(Kind.MASS_CONCENTRATION, "g/L", 100, 1);

  private final Kind kind;
  private final String symbol;
  private final double numerator;
  private final double denominator;
  private final String otherSpelling;

  // Two numbers rather than one factor: 7 / 100 is the double nearest to 0.07 and 7 * 0.01 is not.
  Unit(Kind kind, String symbol, double numerator, double denominator) {
    this(kind, symbol, numerator, denominator, symbol);
  }

  Unit(Kind kind, String symbol, double numerator, double denominator, String otherSpelling) {
    this.kind = kind;
    this.symbol = symbol;
    this.numerator = numerator;
    this.denominator = denominator;
    this.otherSpelling = otherSpelling;
  }

  /** The kind this unit measures. */
  public Kind kind() {
    return kind;
  }

  /** The unit as it is written in files: {@code "mL/kg/min"}; empty for {@link #ONE}. */
  public String symbol() {
    return symbol;
  }

  /** An amount in this unit, expressed in the base unit of the kind. */
  public double toBase(double amount) {
    return amount * numerator / denominator;
  }

  /** An amount in the base unit of the kind, expressed in this unit. */
  public double fromBase(double base) {
    return base * denominator / numerator;
  }

  /** Every spelling a file may use for this unit; the first is the one that is printed. */
  public Stream<String> spellings() {
    return Stream.of(symbol, otherSpelling).distinct();
  }

  /**
   * The unit with this spelling.
   *
   * @param spelling for example {@code "mph"}; upper and lower case matter
   * @return the unit, or empty when there is none
   */
  public static Optional<Unit> named(String spelling) {
    requireNonNull(spelling, "spelling");
    return Arrays.stream(values())
        .filter(unit -> unit != ONE && unit.spellings().anyMatch(spelling::equals))
        .findFirst();
  }
}
