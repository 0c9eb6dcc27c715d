package org.gradus.exchange.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import org.gradus.exchange.device.HeartRateMessage.Contact;
import org.gradus.session.Readings;
import org.gradus.unit.Quantities;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Payloads that others have published with their meaning, each beside its source. All are in
 * hexadecimal, in the order in which they are sent.
 */
class PublishedPayloadsTest {

  static byte[] bytes(String hex) {
    return HexFormat.of().parseHex(hex.replace(" ", ""));
  }

  // sputnikdev/bluetooth-gatt-parser, tests (Apache-2.0), after a real sensor.
  @Test
  void aStrapWithoutContact() {
    HeartRateMessage message = HeartRateMessage.decode(bytes("04 4A"));
    assertThat(message)
        .isEqualTo(new HeartRateMessage(74, Contact.MISSING, OptionalInt.empty(), List.of()));
    assertThat(message.reading()).as("a rate without contact").isEmpty();
  }

  // sputnikdev/bluetooth-gatt-parser, tests (Apache-2.0), after a real sensor.
  @Test
  void aStrapWithAnInterval() {
    assertThat(HeartRateMessage.decode(bytes("14 4A 0D 03")))
        .isEqualTo(new HeartRateMessage(74, Contact.MISSING, OptionalInt.empty(), List.of(781)));
  }

  // eisaev/blevalueparser, tests (MIT), synthetic.
  @Test
  void aStrapWithContact() {
    HeartRateMessage message = HeartRateMessage.decode(bytes("06 AA"));
    assertThat(message)
        .isEqualTo(new HeartRateMessage(170, Contact.THERE, OptionalInt.empty(), List.of()));
    assertThat(message.reading()).contains(Readings.heartRate(170));
  }

  // eisaev/blevalueparser, tests (MIT), synthetic.
  @Test
  void aRateOfTwoBytes() {
    assertThat(HeartRateMessage.decode(bytes("01 AA 01")))
        .isEqualTo(new HeartRateMessage(426, Contact.UNKNOWN, OptionalInt.empty(), List.of()));
  }

  // eisaev/blevalueparser, tests (MIT), synthetic.
  @Test
  void aStrapWithEnergyAndInterval() {
    assertThat(HeartRateMessage.decode(bytes("18 AA BB 01 CC 01")))
        .isEqualTo(new HeartRateMessage(170, Contact.UNKNOWN, OptionalInt.of(443), List.of(460)));
  }

  // sputnikdev/bluetooth-gatt-parser, tests (Apache-2.0).
  @ParameterizedTest
  @CsvSource({"F16C, 36.4", "E16C, 3.64", "016C, 364", "116C, 3640", "FE94, -36.4"})
  void decimalNumbersOfSixteenBits(String bits, double value) {
    assertThat(new Sfloat(HexFormat.fromHexDigits(bits)).value()).hasValue(value);
  }

  // IEEE 11073-20601, from memory.
  @ParameterizedTest
  @CsvSource({"07FE", "07FF", "0800", "0801", "0802"})
  void bitsThatAreNoNumber(String bits) {
    assertThat(new Sfloat(HexFormat.fromHexDigits(bits)).value()).isEmpty();
  }

  // Worked by hand from the layout of 0x2A35: flags 14 announce a pulse and a status, 0078 is 120,
  // 0050 is 80, 005D is 93, 0048 is 72, status 0004 is an irregular pulse.
  @Test
  void aCuff() {
    PressureMessage message = PressureMessage.decode(bytes("14 78 00 50 00 5D 00 48 00 04 00"));
    assertThat(message.reading()).contains(Readings.pressure(120, 80));
    assertThat(message.pulse().orElseThrow().value()).hasValue(72);
    assertThat(message.status()).hasValue(PressureMessage.IRREGULAR_PULSE);
    assertThat(PressureMessage.decode(bytes("10 78 00 50 00 5D 00 02 00")).reading())
        .as("with a loose cuff")
        .isEmpty();
    assertThat(PressureMessage.decode(bytes("00 FF 07 50 00 FF 07")).reading())
        .as("without a systolic value")
        .isEmpty();
  }

  // Worked by hand: F0A0 is 16.0, F06B is 10.7; 1 kPa is 7.50062 mmHg. The time is that of year
  // 07E8 = 2024.
  @Test
  void aCuffInKilopascals() {
    PressureMessage message =
        PressureMessage.decode(bytes("03 A0 F0 6B F0 FF 07 E8 07 02 1D 0E 1E 3B"));
    assertThat(message.time()).contains(new DeviceTime(2024, 2, 29, 14, 30, 59));
    assertThat(message.reading().orElseThrow().parts())
        .map(part -> ((org.gradus.session.Reading.Measured) part).value().in(Unit.MMHG))
        .satisfiesExactly(
            upper -> assertThat(upper).isCloseTo(120.01, within(0.01)),
            lower -> assertThat(lower).isCloseTo(80.26, within(0.01)));
  }

  // pyftms, tests (Apache-2.0): a real treadmill at rest. Bit 13 of the flags is of a later
  // version, whose three bytes come last.
  @Test
  void aTreadmillAtRest() {
    MachineData data = MachineData.decode(Machine.TREADMILL, bytes("9C 25" + "00".repeat(24)));
    assertThat(data.numbers().keySet())
        .containsExactly(
            MachineValue.SPEED,
            MachineValue.DISTANCE,
            MachineValue.GRADE,
            MachineValue.BELT_ANGLE,
            MachineValue.ASCENT,
            MachineValue.DESCENT,
            MachineValue.ENERGY,
            MachineValue.ENERGY_PER_HOUR,
            MachineValue.ENERGY_PER_MINUTE,
            MachineValue.HEART_RATE,
            MachineValue.ELAPSED);
    assertThat(data.numbers().values()).containsOnly(0);
  }

  // flutter_ftms, tests (BSD-3).
  @Test
  void aBike() {
    MachineData data = MachineData.decode(Machine.BIKE, bytes("44 00 00 00 B4 00 66 00"));
    assertThat(data.quantity(MachineValue.CADENCE)).contains(Quantity.of(90, Unit.RPM));
    assertThat(data.quantity(MachineValue.POWER)).contains(Quantity.of(102, Unit.WATT));
    assertThat(data.quantity(MachineValue.SPEED)).contains(Quantity.of(0, Unit.KMH));
    assertThat(data.numbers()).hasSize(3);
  }

  // Worked by hand: with bit 0 the speed comes in another message; bit 5 is the resistance, in one
  // byte by one text and in two by the other, then 100 W.
  @Test
  void aResistanceOfEitherWidth() {
    Map<MachineValue, Integer> both = Map.of(MachineValue.RESISTANCE, 12, MachineValue.POWER, 100);
    assertThat(MachineData.decode(Machine.BIKE, bytes("61 00 0C 64 00")).numbers()).isEqualTo(both);
    assertThat(MachineData.decode(Machine.BIKE, bytes("61 00 0C 00 64 00")).numbers())
        .isEqualTo(both);
  }

  // Worked by hand: 7FFF stands for an angle that the machine does not know.
  @Test
  void aValueThatTheMachineDoesNotHave() {
    MachineData data = MachineData.decode(Machine.TREADMILL, bytes("08 00 0E 01 64 00 FF 7F"));
    assertThat(data.quantity(MachineValue.SPEED)).contains(Quantity.of(2.7, Unit.KMH));
    assertThat(data.quantity(MachineValue.GRADE)).contains(Quantities.percent(10));
    assertThat(data.amount(MachineValue.BELT_ANGLE)).isEqualTo(OptionalDouble.empty());
  }

  // bluetooth-sig-python, tests (MIT).
  @Test
  void supportedRanges() {
    assertThat(SupportedRange.decode(Target.GRADE, bytes("6A FF 96 00 05 00")))
        .hasToString("-15 % to 15 % by 0.5 %");
    assertThat(SupportedRange.decode(Target.SPEED, bytes("64 00 D0 07 0A 00")))
        .hasToString("1 km/h to 20 km/h by 0.1 km/h");
  }

  // pyftms, tests (Apache-2.0).
  @Test
  void aTargetThatWasChanged() {
    MachineStatus status = MachineStatus.decode(bytes("05 69 00"));
    assertThat(status).isEqualTo(new MachineStatus.TargetChanged(Target.SPEED, 105));
    assertThat(((MachineStatus.TargetChanged) status).quantity())
        .isEqualTo(Quantity.of(1.05, Unit.KMH));
  }

  // The operations of the control point, from the open text of the fitness machine service; the
  // numbers behind them worked by hand: 1.7 mph is 2.7359 km/h, 274 = 0112.
  @Test
  void requests() {
    assertThat(new ControlCommand.RequestControl().encode()).isEqualTo(bytes("00"));
    assertThat(ControlCommand.set(Target.SPEED, Quantities.mph(1.7)).encode())
        .isEqualTo(bytes("02 12 01"));
    assertThat(ControlCommand.set(Target.GRADE, Quantities.percent(-2.5)).encode())
        .isEqualTo(bytes("03 E7 FF"));
    assertThat(ControlCommand.set(Target.POWER, Quantity.of(150, Unit.WATT)).encode())
        .isEqualTo(bytes("05 96 00"));
    assertThat(new ControlCommand.Start().encode()).isEqualTo(bytes("07"));
    assertThat(new ControlCommand.Stop().encode()).isEqualTo(bytes("08 01"));
    assertThat(new ControlCommand.Pause().encode()).isEqualTo(bytes("08 02"));
    assertThat(ControlAnswer.decode(bytes("80 02 01")))
        .isEqualTo(new ControlAnswer(0x02, ControlAnswer.Result.SUCCESS));
    assertThat(Target.of("resistance")).isEqualTo(Optional.empty());
  }
}
