package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.unit.Quantity;

/**
 * What a treadmill or bike sends about itself about once a second: the characteristics treadmill
 * data (0x2ACD) and indoor bike data (0x2AD2).
 *
 * @param machine which of the two
 * @param numbers the values that are there, each as the whole number that is sent: a speed of 1.05
 *     km/h is 105
 */
public record MachineData(Machine machine, Map<MachineValue, Integer> numbers) {

  private static final int FLAGS = 2;

  /**
   * A message of these values.
   *
   * @throws ValueRefused when the machine does not send one of them, one does not fit its field, or
   *     of values that are sent together one is missing
   */
  public MachineData {
    requireNonNull(numbers, "numbers");
    Map<MachineValue, Integer> sorted = new EnumMap<>(MachineValue.class);
    sorted.putAll(numbers);
    numbers = Collections.unmodifiableMap(sorted);
    int known = 0;
    for (List<MachineValue> group : machine.groups()) {
      int there = 0;
      for (MachineValue value : group) {
        if (numbers.containsKey(value)) {
          value.otherWidth().holding(numbers.get(value), value.field());
          there++;
        }
      }
      if (there > 0 && there < group.size()) {
        throw new ValueRefused(
            machine.what(), numbers.keySet().toString(), "it sends these together: " + group);
      }
      known += there;
    }
    if (known < numbers.size()) {
      throw new ValueRefused(
          machine.what(), numbers.keySet().toString(), "it sends no more than " + machine.groups());
    }
  }

  /**
   * Reads a message; values of later versions, which come last, are skipped.
   *
   * <p>The open texts give resistance and pace different widths. The length of the message tells
   * which one a machine uses; where values of later versions follow it cannot tell, and the message
   * is refused, since every value behind could be another.
   *
   * @throws PayloadRefused when it is too short or has more bytes than its flags announce, or its
   *     length does not tell the width of a resistance or pace
   */
  public static MachineData decode(Machine machine, byte[] payload) {
    requireNonNull(payload, "payload");
    PayloadReader reader = new PayloadReader(machine.what(), payload);
    int flags = reader.unsigned(FLAGS, "the flags");
    List<MachineValue> there = new ArrayList<>();
    for (int bit = 0; bit < machine.groups().size(); bit++) {
      // The first flag says "more data follows in another message": without it the speed is here.
      if ((flags >> bit & 1) == (bit == 0 ? 0 : 1)) {
        there.addAll(machine.groups().get(bit));
      }
    }
    boolean laterValues = flags >> machine.groups().size() != 0;
    boolean wide = hasWideNumbers(there, laterValues, reader);
    Map<MachineValue, Integer> numbers = new EnumMap<>(MachineValue.class);
    for (MachineValue value : there) {
      Width width = wide ? value.otherWidth() : value.width();
      numbers.put(value, width.read(reader, value.field()));
    }
    if (!laterValues) {
      reader.end();
    }
    return new MachineData(machine, numbers);
  }

  private static boolean hasWideNumbers(
      List<MachineValue> there, boolean laterValues, PayloadReader reader) {
    if (there.stream().noneMatch(MachineValue::hasTwoWidths)) {
      return false;
    }
    if (laterValues) {
      throw reader.refused(
          "sends a resistance or pace, whose width two texts give differently, together with"
              + " values of a later version");
    }
    return reader.left() >= there.stream().mapToInt(value -> value.otherWidth().bytes()).sum();
  }

  /** The bytes of this message; resistance and paces in their wider form. */
  public byte[] encode() {
    int flags = 0;
    PayloadWriter values = new PayloadWriter();
    for (int bit = 0; bit < machine.groups().size(); bit++) {
      List<MachineValue> group = machine.groups().get(bit);
      boolean sent = numbers.containsKey(group.get(0));
      flags |= sent == (bit != 0) ? 1 << bit : 0;
      for (MachineValue value : sent ? group : List.<MachineValue>of()) {
        value.otherWidth().write(values, numbers.getOrDefault(value, 0));
      }
    }
    PayloadWriter message = new PayloadWriter().number(FLAGS, flags);
    for (byte each : values.bytes()) {
      message.number(1, each);
    }
    return message.bytes();
  }

  /** A value in the unit of {@link MachineValue}; empty where it was not sent or is not known. */
  public OptionalDouble amount(MachineValue value) {
    requireNonNull(value, "value");
    Integer number = numbers.get(value);
    return number == null || value.notAvailable().orElse(Integer.MIN_VALUE) == number
        ? OptionalDouble.empty()
        : OptionalDouble.of(value.amount(number));
  }

  /** A value with its unit; empty where it was not sent, is not known or has no unit. */
  public Optional<Quantity> quantity(MachineValue value) {
    requireNonNull(value, "value");
    OptionalDouble amount = amount(value);
    return amount.isEmpty()
        ? Optional.empty()
        : value.unit().map(unit -> Quantity.of(amount.getAsDouble(), unit));
  }
}
