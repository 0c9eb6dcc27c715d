package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Optional;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** A component of the load that a machine can be told, as the service sends it. */
public enum Target {
  /** The speed of a belt, in steps of 0.01 km/h; its range is 0x2AD4. */
  SPEED("speed", Width.U16, 2, Unit.KMH, 0x02, 0x05),
  /** The grade of a belt, in steps of 0.1 %; its range is 0x2AD5. */
  GRADE("grade", Width.S16, 1, Unit.PERCENT, 0x03, 0x06),
  /** The power of an ergometer, in steps of 1 W; its range is 0x2AD8. */
  POWER("power", Width.S16, 0, Unit.WATT, 0x05, 0x08);

  private final String load;
  private final Width width;
  private final int decimals;
  private final Unit unit;
  private final int command;
  private final int status;

  Target(String load, Width width, int decimals, Unit unit, int command, int status) {
    this.load = load;
    this.width = width;
    this.decimals = decimals;
    this.unit = unit;
    this.command = command;
    this.status = status;
  }

  /** The target for a component of a load; empty for components no message can set. */
  public static Optional<Target> of(String load) {
    requireNonNull(load, "load");
    for (Target target : values()) {
      if (target.load.equals(load)) {
        return Optional.of(target);
      }
    }
    return Optional.empty();
  }

  static Optional<Target> withCommand(int operation) {
    for (Target target : values()) {
      if (target.command == operation) {
        return Optional.of(target);
      }
    }
    return Optional.empty();
  }

  static Optional<Target> withStatus(int operation) {
    for (Target target : values()) {
      if (target.status == operation) {
        return Optional.of(target);
      }
    }
    return Optional.empty();
  }

  /** The name of the component in protocols: {@code "speed"}. */
  public String load() {
    return load;
  }

  /** The unit in which it is sent. */
  public Unit unit() {
    return unit;
  }

  Width width() {
    return width;
  }

  int command() {
    return command;
  }

  int status() {
    return status;
  }

  /** A whole number that is sent, as a quantity: 105 is 1.05 km/h. */
  public Quantity quantity(int number) {
    return Quantity.of(BigDecimal.valueOf(number).movePointLeft(decimals).doubleValue(), unit);
  }

  /**
   * The whole number that is sent for a quantity, rounded to the nearest.
   *
   * @throws ValueRefused when the quantity is of another kind or does not fit the field
   */
  public int number(Quantity quantity) {
    if (quantity.kind() != unit.kind()) {
      throw new ValueRefused(
          "a " + load, "sent as " + quantity, "give it in a unit such as " + unit.symbol());
    }
    BigDecimal number =
        BigDecimal.valueOf(quantity.in(unit))
            .movePointRight(decimals)
            .setScale(0, RoundingMode.HALF_UP);
    if (number.compareTo(BigDecimal.valueOf(width.least())) < 0
        || number.compareTo(BigDecimal.valueOf(width.most())) > 0) {
      throw new ValueRefused(
          "a " + load,
          "sent as " + quantity,
          "its field holds " + quantity(width.least()) + " to " + quantity(width.most()));
    }
    return number.intValueExact();
  }
}
