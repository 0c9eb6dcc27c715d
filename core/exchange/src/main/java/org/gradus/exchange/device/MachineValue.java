package org.gradus.exchange.device;

import java.math.BigDecimal;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.unit.Unit;

/**
 * A value that a treadmill or bike sends, with its unit and the step in which it is sent.
 *
 * <p>Widths and steps are those of the open text of the fitness machine service; where two texts
 * differ, {@link #RESISTANCE} and the paces, both widths are read.
 */
public enum MachineValue {
  /** The speed now, in steps of 0.01 km/h. */
  SPEED(Width.U16, 2, Unit.KMH),
  /** The mean speed since the start, in steps of 0.01 km/h. */
  AVERAGE_SPEED(Width.U16, 2, Unit.KMH),
  /** The distance since the start, in metres. */
  DISTANCE(Width.U24, 0, Unit.METRE),
  /** The grade, in steps of 0.1 %. */
  GRADE(Width.S16, 1, Unit.PERCENT, 0x7FFF),
  /** The angle of the belt, in steps of 0.1 degrees. */
  BELT_ANGLE(Width.S16, 1, null, 0x7FFF),
  /** The ascent since the start, in steps of 0.1 m. */
  ASCENT(Width.U16, 1, Unit.METRE),
  /** The descent since the start, in steps of 0.1 m. */
  DESCENT(Width.U16, 1, Unit.METRE),
  /** The pace now, in steps of 0.1 km/min. */
  PACE(Width.U8, Width.U16, 1),
  /** The mean pace since the start, in steps of 0.1 km/min. */
  AVERAGE_PACE(Width.U8, Width.U16, 1),
  /** The pedal rate now, in steps of 0.5/min. */
  CADENCE(Width.U16, Unit.RPM, "0.5"),
  /** The mean pedal rate since the start, in steps of 0.5/min. */
  AVERAGE_CADENCE(Width.U16, Unit.RPM, "0.5"),
  /** The level of resistance, a number of the machine's own. */
  RESISTANCE(Width.U8, Width.S16, 0),
  /** The power now, in watts. */
  POWER(Width.S16, 0, Unit.WATT),
  /** The mean power since the start, in watts. */
  AVERAGE_POWER(Width.S16, 0, Unit.WATT),
  /** The force on the belt, in newtons. */
  BELT_FORCE(Width.S16, 0, Unit.NEWTON, 0x7FFF),
  /** The power on the belt, in watts. */
  BELT_POWER(Width.S16, 0, Unit.WATT, 0x7FFF),
  /** The energy expended since the start, in kcal. */
  ENERGY(Width.U16, 0, Unit.KCAL, 0xFFFF),
  /** The energy expended in an hour at this load, in kcal. */
  ENERGY_PER_HOUR(Width.U16, 0, null, 0xFFFF),
  /** The energy expended in a minute at this load, in kcal. */
  ENERGY_PER_MINUTE(Width.U8, 0, Unit.KCAL_PER_MINUTE, 0xFF),
  /** The heart rate that the machine has from a strap or a handle, in beats per minute. */
  HEART_RATE(Width.U8, 0, Unit.BPM),
  /** The machine's own estimate of MET, in steps of 0.1. */
  MET(Width.U8, 1, Unit.MET),
  /** The seconds since the start. */
  ELAPSED(Width.U16, 0, Unit.SECOND),
  /** The seconds until the end of the machine's own programme. */
  REMAINING(Width.U16, 0, Unit.SECOND);

  private final Width width;
  private final Width otherWidth;
  private final BigDecimal step;
  private final Optional<Unit> unit;
  private final OptionalInt notAvailable;

  MachineValue(Width width, int decimals, Unit unit) {
    this(width, width, BigDecimal.ONE.movePointLeft(decimals), Optional.of(unit), -1);
  }

  MachineValue(Width width, Unit unit, String step) {
    this(width, width, new BigDecimal(step), Optional.of(unit), -1);
  }

  MachineValue(Width width, int decimals, @org.jspecify.annotations.Nullable Unit unit, int none) {
    this(width, width, BigDecimal.ONE.movePointLeft(decimals), Optional.ofNullable(unit), none);
  }

  MachineValue(Width width, Width otherWidth, int decimals) {
    this(width, otherWidth, BigDecimal.ONE.movePointLeft(decimals), Optional.empty(), -1);
  }

  MachineValue(Width width, Width otherWidth, BigDecimal step, Optional<Unit> unit, int none) {
    this.width = width;
    this.otherWidth = otherWidth;
    this.step = step;
    this.unit = unit;
    this.notAvailable = none < 0 ? OptionalInt.empty() : OptionalInt.of(none);
  }

  /** The unit in which Gradus shows it; empty for numbers that Gradus has no unit for. */
  public Optional<Unit> unit() {
    return unit;
  }

  /** The number that is sent in place of a value the machine does not have, if there is one. */
  public OptionalInt notAvailable() {
    return notAvailable;
  }

  Width width() {
    return width;
  }

  // The width that another text of the service gives it.
  Width otherWidth() {
    return otherWidth;
  }

  boolean hasTwoWidths() {
    return width != otherWidth;
  }

  double amount(int raw) {
    return step.multiply(BigDecimal.valueOf(raw)).doubleValue();
  }

  String field() {
    return "the " + name().toLowerCase(java.util.Locale.ROOT).replace('_', ' ');
  }
}
