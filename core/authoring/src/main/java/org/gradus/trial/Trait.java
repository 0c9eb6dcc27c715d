package org.gradus.trial;

import java.util.Locale;
import java.util.Optional;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** What makes up a virtual person, in the order in which it is drawn. */
public enum Trait {
  /** Whether the person is a woman. */
  FEMALE(Optional.empty()),
  /** Years. */
  AGE(Kind.AGE),
  /** Body mass. */
  MASS(Kind.MASS),
  /** The true maximal uptake, which estimates are compared with. */
  CAPACITY(Kind.UPTAKE),
  /** Uptake at rest. */
  RESTING_UPTAKE(Kind.UPTAKE),
  /** The true maximal heart rate. */
  MAX_RATE(Kind.HEART_RATE),
  /** Heart rate at rest. */
  RESTING_RATE(Kind.HEART_RATE),
  /** By what share the heart rate of the day lies above or below that of other days. */
  DAY_SHIFT(Kind.NUMBER),
  /** Uptake at a load as a multiple of what the equation says. */
  COST_FACTOR(Kind.NUMBER),
  /** How fast the heart rate follows the load. */
  TIME_CONSTANT(Kind.TIME),
  /** From one reading to the next, as a standard deviation. */
  RATE_NOISE(Kind.HEART_RATE),
  /** Systolic pressure at rest. */
  SYSTOLIC(Kind.PRESSURE),
  /** By how much it rises up to the maximum. */
  SYSTOLIC_RISE(Kind.PRESSURE),
  /** Diastolic pressure. */
  DIASTOLIC(Kind.PRESSURE),
  /** From one pressure to the next, as a standard deviation. */
  PRESSURE_NOISE(Kind.PRESSURE),
  /** The speed from which on the person runs. */
  RUNS_FROM(Kind.SPEED),
  /** Body height. */
  HEIGHT(Kind.LENGTH),
  /** How long a load above the capacity is endured. */
  ENDURES(Kind.TIME),
  /** The share of the capacity at which the person works where the pace is free. */
  FREE_PACE(Kind.NUMBER);

  private final Optional<Kind> kind;

  Trait(Kind kind) {
    this(Optional.of(kind));
  }

  Trait(Optional<Kind> kind) {
    this.kind = kind;
  }

  /** The word files and formulas use. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }

  /** What it is a measure of; empty for what is so or not. */
  public Optional<Kind> kind() {
    return kind;
  }

  Type type() {
    return kind.<Type>map(Type.Measure::new).orElse(Type.CONDITION);
  }
}
