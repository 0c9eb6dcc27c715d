package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.session.Reading;
import org.gradus.session.Readings;

/**
 * What a strap sends about once a second: the characteristic heart rate measurement (0x2A37).
 *
 * @param rate the heart rate in beats per minute, from 0; many straps send 0 while they find none
 * @param contact whether the strap feels skin
 * @param energy the energy expended since the last reset, in kJ, where it is sent
 * @param intervals the times between beats since the last message, oldest first, each in 1/1024 s
 */
public record HeartRateMessage(
    int rate, Contact contact, OptionalInt energy, List<Integer> intervals) {

  /** The parts of a second in which intervals are given. */
  public static final int INTERVALS_PER_SECOND = 1024;

  private static final String WHAT = "heart rate measurement";
  private static final int WIDE_RATE = 1;
  private static final int HAS_ENERGY = 1 << 3;
  private static final int HAS_INTERVALS = 1 << 4;
  private static final int LATER_FLAGS = 0xE0;
  private static final int CONTACT_SHIFT = 1;

  /** Whether the strap feels skin. */
  public enum Contact {
    /** The strap cannot tell. */
    UNKNOWN,
    /** It can tell, and there is none: its rate is not to be trusted. */
    MISSING,
    /** It can tell, and there is. */
    THERE;

    private int bits() {
      return this == UNKNOWN ? 0 : this == MISSING ? 2 : 3;
    }

    // Without support the lower bit means nothing.
    private static Contact of(int bits) {
      return bits == 3 ? THERE : bits == 2 ? MISSING : UNKNOWN;
    }
  }

  /**
   * A message of these values.
   *
   * @throws org.gradus.diagnostic.ValueRefused when one of them does not fit its field
   */
  public HeartRateMessage {
    requireNonNull(contact, "contact");
    requireNonNull(intervals, "intervals");
    Width.U16.holding(rate, "a heart rate");
    energy.ifPresent(kilojoules -> Width.U16.holding(kilojoules, "an energy"));
    intervals = List.copyOf(intervals);
    intervals.forEach(interval -> Width.U16.holding(interval, "an interval"));
  }

  /**
   * Reads a message. Where flags of a later version are set, the intervals are left out: what ends
   * them is not known then.
   *
   * @throws PayloadRefused when it is too short or has more bytes than its flags announce
   */
  public static HeartRateMessage decode(byte[] payload) {
    requireNonNull(payload, "payload");
    PayloadReader reader = new PayloadReader(WHAT, payload);
    int flags = reader.unsigned(1, "the flags");
    int rate = reader.unsigned((flags & WIDE_RATE) == 0 ? 1 : 2, "the heart rate");
    OptionalInt energy =
        (flags & HAS_ENERGY) == 0
            ? OptionalInt.empty()
            : OptionalInt.of(reader.unsigned(2, "the energy expended"));
    List<Integer> intervals = new ArrayList<>();
    if ((flags & LATER_FLAGS) == 0) {
      while ((flags & HAS_INTERVALS) != 0 && reader.left() > 0) {
        intervals.add(reader.unsigned(2, "an interval between beats"));
      }
      reader.end();
    }
    return new HeartRateMessage(rate, Contact.of(flags >> CONTACT_SHIFT & 3), energy, intervals);
  }

  /** The bytes of this message. */
  public byte[] encode() {
    boolean wide = rate > Width.U8.most();
    int flags =
        (wide ? WIDE_RATE : 0)
            | contact.bits() << CONTACT_SHIFT
            | (energy.isPresent() ? HAS_ENERGY : 0)
            | (intervals.isEmpty() ? 0 : HAS_INTERVALS);
    PayloadWriter writer = new PayloadWriter().number(1, flags).number(wide ? 2 : 1, rate);
    energy.ifPresent(kilojoules -> writer.number(2, kilojoules));
    intervals.forEach(interval -> writer.number(2, interval));
    return writer.bytes();
  }

  /** The heart rate as a reading; empty while the strap finds none or has no contact. */
  public Optional<Reading> reading() {
    return rate == 0 || contact == Contact.MISSING
        ? Optional.empty()
        : Optional.of(Readings.heartRate(rate));
  }
}
