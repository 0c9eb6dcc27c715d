package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.unit.Quantity;

/**
 * What a machine can set of one component of a load: the characteristics supported speed range
 * (0x2AD4), supported inclination range (0x2AD5) and supported power range (0x2AD8).
 *
 * @param target the component
 * @param least the least it can set, as the number that is sent
 * @param most the most it can set
 * @param step the step between two, above 0 unless there is only one
 */
public record SupportedRange(Target target, int least, int most, int step) {

  /**
   * A range.
   *
   * @throws ValueRefused when a number does not fit its field, the ends are exchanged, or there is
   *     no step between them
   */
  public SupportedRange {
    target.width().holding(least, "the least");
    target.width().holding(most, "the most");
    Width.U16.holding(step, "the step");
    String fault = fault(least, most, step);
    if (!fault.isEmpty()) {
      throw new ValueRefused(
          "a range of " + target.load(), least + " to " + most + " by " + step, "it " + fault);
    }
  }

  /** A range of quantities, each rounded to what can be sent. */
  public static SupportedRange of(Target target, Quantity least, Quantity most, Quantity step) {
    requireNonNull(least, "least");
    requireNonNull(most, "most");
    requireNonNull(step, "step");
    return new SupportedRange(
        target, target.number(least), target.number(most), target.number(step));
  }

  /**
   * Reads a range.
   *
   * @throws PayloadRefused when it has not six bytes, or cannot be: the ends exchanged, or no step
   *     between them
   */
  public static SupportedRange decode(Target target, byte[] payload) {
    requireNonNull(payload, "payload");
    PayloadReader reader = new PayloadReader("supported " + target.load() + " range", payload);
    int least = target.width().read(reader, "the least");
    int most = target.width().read(reader, "the most");
    int step = reader.unsigned(2, "the step");
    reader.end();
    String fault = fault(least, most, step);
    if (!fault.isEmpty()) {
      throw reader.refused(fault);
    }
    return new SupportedRange(target, least, most, step);
  }

  private static String fault(int least, int most, int step) {
    if (least > most) {
      return "begins at " + least + ", above its end " + most;
    }
    return step == 0 && least < most ? "has no step between " + least + " and " + most : "";
  }

  /** The bytes of this range. */
  public byte[] encode() {
    PayloadWriter writer = new PayloadWriter();
    target.width().write(writer, least);
    target.width().write(writer, most);
    return writer.number(2, step).bytes();
  }

  /** The value of the machine that is nearest to a quantity; empty where that lies outside. */
  Optional<Quantity> nearest(Quantity quantity) {
    if (quantity.kind() != target.unit().kind()) {
      return Optional.empty();
    }
    double wanted = quantity.base();
    double first = target.quantity(least).base();
    double apart = target.quantity(step).base();
    double number = step == 0 ? least : least + step * Math.floor((wanted - first) / apart + 0.5);
    if (number < least || number > most) {
      return Optional.empty();
    }
    Quantity nearest = target.quantity((int) number);
    boolean there = Math.abs(nearest.base() - wanted) <= apart / 2 || nearest.isSameAs(quantity);
    return there ? Optional.of(nearest) : Optional.empty();
  }

  /** A difference, rounded to whole steps of the machine. */
  Quantity wholeSteps(Quantity difference) {
    double apart = target.quantity(step).base();
    long steps = apart == 0 ? 0 : Math.round(difference.base() / apart);
    return target.quantity((int) (steps * step));
  }

  /** The range in words: {@code "1 km/h to 20 km/h by 0.1 km/h"}. */
  @Override
  public String toString() {
    return target.quantity(least)
        + " to "
        + target.quantity(most)
        + (step == 0 ? "" : " by " + target.quantity(step));
  }
}
