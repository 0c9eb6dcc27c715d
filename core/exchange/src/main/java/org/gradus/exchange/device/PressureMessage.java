package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * What a cuff sends when it has measured: the characteristic blood pressure measurement (0x2A35).
 *
 * @param systolic the upper pressure
 * @param diastolic the lower pressure
 * @param mean the mean arterial pressure; many cuffs send no number
 * @param unit {@link Unit#MMHG} or {@link Unit#KPA}
 * @param time when it was measured by the cuff's own clock, where it is sent
 * @param pulse the pulse in beats per minute, where it is sent
 * @param user the number of the user, where it is sent
 * @param status what the cuff says against its own measurement, where it is sent
 */
public record PressureMessage(
    Sfloat systolic,
    Sfloat diastolic,
    Sfloat mean,
    Unit unit,
    Optional<DeviceTime> time,
    Optional<Sfloat> pulse,
    OptionalInt user,
    OptionalInt status) {

  /** The status bit of a body that moved. */
  public static final int MOVED = 1;

  /** The status bit of a cuff that is too loose. */
  public static final int LOOSE_CUFF = 1 << 1;

  /** The status bit of an irregular pulse. */
  public static final int IRREGULAR_PULSE = 1 << 2;

  /** The status bit of an improper position of the cuff. */
  public static final int IMPROPER_POSITION = 1 << 5;

  private static final String WHAT = "blood pressure measurement";
  private static final int KPA = 1;
  private static final int HAS_TIME = 1 << 1;
  private static final int HAS_PULSE = 1 << 2;
  private static final int HAS_USER = 1 << 3;
  private static final int HAS_STATUS = 1 << 4;
  private static final int LATER_FLAGS = 0xE0;
  private static final int SPOILED = MOVED | LOOSE_CUFF | IMPROPER_POSITION;

  /**
   * A message of these values.
   *
   * @throws ValueRefused when one of them does not fit its field, or the unit is another
   */
  public PressureMessage {
    requireNonNull(diastolic, "diastolic");
    requireNonNull(mean, "mean");
    requireNonNull(pulse, "pulse");
    requireNonNull(status, "status");
    requireNonNull(systolic, "systolic");
    requireNonNull(time, "time");
    requireNonNull(user, "user");
    if (unit != Unit.MMHG && unit != Unit.KPA) {
      throw new ValueRefused(
          "the unit of a cuff",
          unit == Unit.ONE ? "a plain number" : unit.symbol(),
          "give mmHg or kPa");
    }
    user.ifPresent(number -> Width.U8.holding(number, "a user number"));
    status.ifPresent(bits -> Width.U16.holding(bits, "a status"));
  }

  /**
   * Reads a message; fields of later versions are skipped.
   *
   * @throws PayloadRefused when it is too short, has more bytes than its flags announce, or gives a
   *     negative pressure or a time that does not exist
   */
  public static PressureMessage decode(byte[] payload) {
    requireNonNull(payload, "payload");
    PayloadReader reader = new PayloadReader(WHAT, payload);
    int flags = reader.unsigned(1, "the flags");
    PressureMessage message =
        new PressureMessage(
            pressure(reader, "the systolic pressure"),
            pressure(reader, "the diastolic pressure"),
            pressure(reader, "the mean pressure"),
            (flags & KPA) == 0 ? Unit.MMHG : Unit.KPA,
            (flags & HAS_TIME) == 0 ? Optional.empty() : Optional.of(DeviceTime.read(reader)),
            (flags & HAS_PULSE) == 0
                ? Optional.empty()
                : Optional.of(pressure(reader, "the pulse rate")),
            (flags & HAS_USER) == 0
                ? OptionalInt.empty()
                : OptionalInt.of(reader.unsigned(1, "the user number")),
            (flags & HAS_STATUS) == 0
                ? OptionalInt.empty()
                : OptionalInt.of(reader.unsigned(2, "the status")));
    if ((flags & LATER_FLAGS) == 0) {
      reader.end();
    }
    return message;
  }

  private static Sfloat pressure(PayloadReader reader, String field) {
    Sfloat value = new Sfloat(reader.unsigned(2, field));
    if (value.value().orElse(0) < 0) {
      throw reader.refused("gives " + field + " as " + value + ", below zero");
    }
    return value;
  }

  /** The bytes of this message. */
  public byte[] encode() {
    int flags =
        (unit == Unit.KPA ? KPA : 0)
            | (time.isPresent() ? HAS_TIME : 0)
            | (pulse.isPresent() ? HAS_PULSE : 0)
            | (user.isPresent() ? HAS_USER : 0)
            | (status.isPresent() ? HAS_STATUS : 0);
    PayloadWriter writer =
        new PayloadWriter()
            .number(1, flags)
            .number(2, systolic.bits())
            .number(2, diastolic.bits())
            .number(2, mean.bits());
    time.ifPresent(stamp -> stamp.write(writer));
    pulse.ifPresent(rate -> writer.number(2, rate.bits()));
    user.ifPresent(number -> writer.number(1, number));
    status.ifPresent(bits -> writer.number(2, bits));
    return writer.bytes();
  }

  /**
   * The pressure as a reading in mmHg; empty where the cuff sends no number, or says itself that
   * the body moved, the cuff was loose or it lay wrong: measure again then.
   */
  public Optional<Reading> reading() {
    OptionalDouble upper = systolic.value();
    OptionalDouble lower = diastolic.value();
    boolean spoiled = (status.orElse(0) & SPOILED) != 0;
    return spoiled || upper.isEmpty() || lower.isEmpty()
        ? Optional.empty()
        : Optional.of(Readings.pressure(mmHg(upper.getAsDouble()), mmHg(lower.getAsDouble())));
  }

  private double mmHg(double value) {
    return unit == Unit.MMHG ? value : Quantity.of(value, unit).in(Unit.MMHG);
  }
}
