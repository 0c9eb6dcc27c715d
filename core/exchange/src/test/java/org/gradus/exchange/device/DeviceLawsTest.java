package org.gradus.exchange.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.exchange.device.HeartRateMessage.Contact;
import org.gradus.unit.Quantities;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** What holds for every message: what is encoded is decoded again, and bytes never do harm. */
class DeviceLawsTest {

  private static final Map<String, Function<byte[], Object>> DECODERS =
      Map.of(
          "heart rate",
          HeartRateMessage::decode,
          "pressure",
          PressureMessage::decode,
          "treadmill",
          bytes -> MachineData.decode(Machine.TREADMILL, bytes),
          "bike",
          bytes -> MachineData.decode(Machine.BIKE, bytes),
          "speed range",
          bytes -> SupportedRange.decode(Target.SPEED, bytes),
          "grade range",
          bytes -> SupportedRange.decode(Target.GRADE, bytes),
          "power range",
          bytes -> SupportedRange.decode(Target.POWER, bytes),
          "status",
          MachineStatus::decode,
          "request",
          ControlCommand::decode,
          "answer",
          ControlAnswer::decode);

  @Property(tries = 3000)
  void noBytesThrowAnythingButARefusal(@ForAll @Size(max = 40) byte[] bytes) {
    DECODERS.forEach((name, decoder) -> readOrRefused(decoder, bytes));
  }

  // Random flags announce more than random bytes hold; these have few flags.
  @Property(tries = 3000)
  void noLikelyBytesThrowAnythingButARefusal(
      @ForAll @IntRange(max = 0x3F) int flags, @ForAll @Size(max = 24) byte[] rest) {
    byte[] bytes = new byte[rest.length + 2];
    bytes[0] = (byte) flags;
    System.arraycopy(rest, 0, bytes, 2, rest.length);
    DECODERS.forEach((name, decoder) -> readOrRefused(decoder, bytes));
  }

  private static void readOrRefused(Function<byte[], Object> decoder, byte[] bytes) {
    try {
      assertThat(decoder.apply(bytes)).isNotNull();
    } catch (PayloadRefused refused) {
      assertThat(refused.what()).isNotEmpty();
      assertThat(refused).hasMessageContaining(refused.reason());
    }
  }

  @Property
  void heartRates(@ForAll("heartRateMessages") HeartRateMessage message) {
    assertThat(HeartRateMessage.decode(message.encode())).isEqualTo(message);
  }

  @Provide
  Arbitrary<HeartRateMessage> heartRateMessages() {
    Arbitrary<Integer> word = Arbitraries.integers().between(0, 0xFFFF);
    return Combinators.combine(
            word,
            Arbitraries.of(Contact.class),
            word.optional().map(DeviceLawsTest::optionalInt),
            word.list().ofMaxSize(9))
        .as(HeartRateMessage::new);
  }

  private static OptionalInt optionalInt(Optional<Integer> number) {
    return number.map(OptionalInt::of).orElse(OptionalInt.empty());
  }

  @Property
  void pressures(@ForAll("pressureMessages") PressureMessage message) {
    assertThat(PressureMessage.decode(message.encode())).isEqualTo(message);
  }

  @Provide
  Arbitrary<PressureMessage> pressureMessages() {
    Arbitrary<Sfloat> number =
        Arbitraries.integers()
            .between(0, 0xFFFF)
            .map(Sfloat::new)
            .filter(each -> each.value().orElse(0) >= 0);
    Arbitrary<DeviceTime> time =
        Combinators.combine(
                Arbitraries.integers().between(1582, 9999),
                Arbitraries.integers().between(0, 12),
                Arbitraries.integers().between(0, 31),
                Arbitraries.integers().between(0, 23),
                Arbitraries.integers().between(0, 59),
                Arbitraries.integers().between(0, 59))
            .as(DeviceTime::new);
    return Combinators.combine(
            number,
            number,
            number,
            Arbitraries.of(Unit.MMHG, Unit.KPA),
            time.optional(),
            number.optional(),
            Arbitraries.integers().between(0, 255).optional().map(DeviceLawsTest::optionalInt),
            Arbitraries.integers().between(0, 0xFFFF).optional().map(DeviceLawsTest::optionalInt))
        .as(PressureMessage::new);
  }

  @Property
  void treadmills(@ForAll("treadmillData") MachineData data) {
    assertThat(MachineData.decode(Machine.TREADMILL, data.encode())).isEqualTo(data);
  }

  @Property
  void bikes(@ForAll("bikeData") MachineData data) {
    assertThat(MachineData.decode(Machine.BIKE, data.encode())).isEqualTo(data);
  }

  @Provide
  Arbitrary<MachineData> treadmillData() {
    return machineData(Machine.TREADMILL);
  }

  @Provide
  Arbitrary<MachineData> bikeData() {
    return machineData(Machine.BIKE);
  }

  private static Arbitrary<MachineData> machineData(Machine machine) {
    List<Arbitrary<Map<MachineValue, Integer>>> groups = new ArrayList<>();
    for (List<MachineValue> group : machine.groups()) {
      List<Arbitrary<Integer>> numbers =
          group.stream()
              .<Arbitrary<Integer>>map(
                  value ->
                      Arbitraries.integers()
                          .between(value.otherWidth().least(), value.otherWidth().most()))
              .toList();
      Arbitrary<Map<MachineValue, Integer>> sent =
          Combinators.combine(numbers).as(chosen -> together(group, chosen));
      groups.add(Arbitraries.oneOf(List.of(sent, Arbitraries.just(Map.of()))));
    }
    return Combinators.combine(groups)
        .as(
            chosen -> {
              Map<MachineValue, Integer> all = new EnumMap<>(MachineValue.class);
              chosen.forEach(all::putAll);
              return new MachineData(machine, all);
            });
  }

  private static Map<MachineValue, Integer> together(
      List<MachineValue> group, List<Integer> numbers) {
    Map<MachineValue, Integer> map = new EnumMap<>(MachineValue.class);
    for (int i = 0; i < group.size(); i++) {
      map.put(group.get(i), numbers.get(i));
    }
    return map;
  }

  @Property
  void ranges(@ForAll("supportedRanges") SupportedRange range) {
    assertThat(SupportedRange.decode(range.target(), range.encode())).isEqualTo(range);
  }

  @Provide
  Arbitrary<SupportedRange> supportedRanges() {
    return Arbitraries.of(Target.class)
        .flatMap(
            target ->
                Combinators.combine(numbers(target), numbers(target), steps())
                    .as(
                        (one, other, step) ->
                            new SupportedRange(
                                target, Math.min(one, other), Math.max(one, other), step)));
  }

  private static Arbitrary<Integer> numbers(Target target) {
    return Arbitraries.integers().between(target.width().least(), target.width().most());
  }

  private static Arbitrary<Integer> steps() {
    return Arbitraries.integers().between(1, 0xFFFF);
  }

  @Property
  void statuses(@ForAll("machineStatuses") MachineStatus status) {
    assertThat(MachineStatus.decode(status.encode())).isEqualTo(status);
  }

  @Provide
  Arbitrary<MachineStatus> machineStatuses() {
    Arbitrary<MachineStatus> changed =
        Arbitraries.of(Target.class)
            .flatMap(
                target ->
                    numbers(target).map(number -> new MachineStatus.TargetChanged(target, number)));
    Arbitrary<MachineStatus> other =
        Arbitraries.integers()
            .between(0, 255)
            .filter(operation -> !StatusText.isKnown(operation))
            .map(MachineStatus.Other::new);
    return Arbitraries.oneOf(
        List.of(
            changed,
            other,
            Arbitraries.of(
                new MachineStatus.Reset(),
                new MachineStatus.StoppedByUser(),
                new MachineStatus.PausedByUser(),
                new MachineStatus.StoppedBySafetyKey(),
                new MachineStatus.StartedByUser(),
                new MachineStatus.ControlLost())));
  }

  @Property
  void requests(@ForAll("controlCommands") ControlCommand command) {
    assertThat(ControlCommand.decode(command.encode())).isEqualTo(command);
    assertThat(command.encode()[0]).isEqualTo((byte) command.operation());
  }

  @Provide
  Arbitrary<ControlCommand> controlCommands() {
    Arbitrary<ControlCommand> set =
        Arbitraries.of(Target.class)
            .flatMap(
                target -> numbers(target).map(number -> new ControlCommand.Set(target, number)));
    return Arbitraries.oneOf(
        List.of(
            set,
            Arbitraries.of(
                new ControlCommand.RequestControl(),
                new ControlCommand.Reset(),
                new ControlCommand.Start(),
                new ControlCommand.Stop(),
                new ControlCommand.Pause())));
  }

  @Property
  void answers(@ForAll @IntRange(max = 255) int operation, @ForAll ControlAnswer.Result result) {
    ControlAnswer answer = new ControlAnswer(operation, result);
    assertThat(ControlAnswer.decode(answer.encode())).isEqualTo(answer);
  }

  // Every number has several spellings; the value of each is found again.
  @Property
  void decimalNumbers(@ForAll @IntRange(max = 0xFFFF) int bits) {
    Sfloat number = new Sfloat(bits);
    number
        .value()
        .ifPresent(value -> assertThat(Sfloat.of(value).value().orElseThrow()).isEqualTo(value));
  }

  // Values of a later version come last, and what comes before them is the same.
  @Property
  void laterValuesAreSkipped(
      @ForAll("treadmillData") MachineData any, @ForAll @Size(max = 5) byte[] later) {
    Map<MachineValue, Integer> numbers = new EnumMap<>(MachineValue.class);
    numbers.putAll(any.numbers());
    numbers.keySet().removeIf(MachineValue::hasTwoWidths);
    MachineData data = new MachineData(Machine.TREADMILL, numbers);
    byte[] now = data.encode();
    byte[] then = java.util.Arrays.copyOf(now, now.length + later.length);
    System.arraycopy(later, 0, then, now.length, later.length);
    then[1] |= (byte) 0x80;
    assertThat(MachineData.decode(Machine.TREADMILL, then)).isEqualTo(data);
  }

  @Test
  void aPayloadThatIsTooShortSaysWhere() {
    assertThatThrownBy(() -> HeartRateMessage.decode(new byte[] {1, 74}))
        .isInstanceOf(PayloadRefused.class)
        .hasMessage(
            "G624: the heart rate measurement [01 4A] cannot be read: ends at byte 2, within the heart rate;"
                + " drop this message and wait for the next one");
  }

  @Test
  void bytesThatNoFlagAnnouncesAreRefused() {
    assertThatThrownBy(
            () -> MachineData.decode(Machine.TREADMILL, PublishedPayloadsTest.bytes("0000000000")))
        .isInstanceOf(PayloadRefused.class)
        .hasMessageContaining("has 5 bytes, of which its flags announce only 4");
  }

  @Test
  void aPressureBelowZeroAndATimeThatDoesNotExistAreRefused() {
    assertThatThrownBy(() -> PressureMessage.decode(PublishedPayloadsTest.bytes("00F60F50005D00")))
        .isInstanceOf(PayloadRefused.class)
        .hasMessageContaining("gives the systolic pressure as -10, below zero");
    assertThatThrownBy(
            () ->
                PressureMessage.decode(PublishedPayloadsTest.bytes("0278005000FF07E8070D01000000")))
        .isInstanceOf(PayloadRefused.class)
        .hasMessageContaining("2024-13-01");
  }

  @Test
  void aRangeThatCannotBeIsRefused() {
    assertThatThrownBy(
            () -> SupportedRange.decode(Target.SPEED, PublishedPayloadsTest.bytes("D00764000A00")))
        .isInstanceOf(PayloadRefused.class)
        .hasMessageContaining("begins at 2000, above its end 100");
    assertThatThrownBy(
            () -> SupportedRange.decode(Target.SPEED, PublishedPayloadsTest.bytes("6400D0070000")))
        .isInstanceOf(PayloadRefused.class)
        .hasMessageContaining("no step");
  }

  // A resistance of one byte or of two: the values behind would be others.
  @Test
  void aWidthThatCannotBeToldIsRefused() {
    assertThatThrownBy(
            () ->
                MachineData.decode(
                    Machine.BIKE, PublishedPayloadsTest.bytes("61 80 0C 00 64 00 00")))
        .isInstanceOf(PayloadRefused.class)
        .hasMessageContaining("width");
  }

  @Test
  void aTargetThatDoesNotFitIsRefusedBeforeItIsSent() {
    assertThatThrownBy(() -> ControlCommand.set(Target.SPEED, Quantities.mph(-1)))
        .isInstanceOf(ValueRefused.class)
        .hasMessageContaining("its field holds 0 km/h to 655.35 km/h");
    assertThatThrownBy(() -> ControlCommand.set(Target.SPEED, Quantities.percent(1)))
        .isInstanceOf(ValueRefused.class)
        .hasMessageContaining("km/h");
  }
}
