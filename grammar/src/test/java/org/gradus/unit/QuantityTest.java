package org.gradus.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import org.gradus.diagnostic.ValueRefused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantityTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1.7 | MPH | 1.7 mph",
        "10 | PERCENT | 10 %",
        "17 | ONE | 17",
        "-0.0 | BPM | 0 bpm",
        "1e15 | ONE | 1000000000000000",
        "1e-7 | MET | 0.0000001 MET",
        "0.30000000000000004 | KILOGRAM | 0.3 kg",
        "33.333333333333336 | WATT | 33.3333333333 W",
      })
  void printsAsPeopleWriteIt(double amount, Unit unit, String printed) {
    assertThat(Quantity.of(amount, unit)).hasToString(printed);
  }

  @ParameterizedTest
  @CsvSource({
    "2.5, 1, 3",
    "-2.5, 1, -2",
    "-2.6, 1, -3",
    "7.49999, 5, 5",
    "7.4999999999, 5, 10",
    "7.5, 5, 10",
    "0.15, 0.1, 0.2",
    "112, 5, 110"
  })
  void roundsHalfAStepUpwards(double number, double step, double rounded) {
    assertThat(Quantity.roundTo(number, step)).isEqualTo(rounded);
  }

  @Property(tries = 2000)
  void aRoundedNumberIsWithinHalfAStep(
      @ForAll @DoubleRange(min = -1e6, max = 1e6) double number,
      @ForAll @DoubleRange(min = 0.01, max = 100) double step) {
    double rounded = Quantity.roundTo(number, step);
    assertThat(Math.abs(rounded - number)).isLessThanOrEqualTo(step * 0.5000001 + 1e-9);
  }

  @Property(tries = 2000)
  void beingTheSameIsMutualAndEndsAtTheTolerance(
      @ForAll @DoubleRange(min = -1e9, max = 1e9) double a) {
    double near = a * (1 + 0.9e-9);
    assertThat(Quantity.same(a, near)).isTrue();
    assertThat(Quantity.same(near, a)).isTrue();
    assertThat(Quantity.same(a, a * (1 + 1.2e-9))).isEqualTo(a == 0);
  }

  @Test
  void onePartInAThousandMillionIsStillTheSame() {
    assertThat(Quantity.same(1_000_000_000, 999_999_999)).isTrue();
    assertThat(Quantity.same(1_000_000_000, 999_999_998.9)).isFalse();
  }

  @Test
  void infinityIsTheSameAsNothingButItself() {
    double infinity = Double.POSITIVE_INFINITY;
    assertThat(Quantity.same(infinity, infinity)).isTrue();
    assertThat(Quantity.same(infinity, -infinity)).isFalse();
    assertThat(Quantity.same(infinity, 5)).isFalse();
    assertThat(Quantity.same(Double.MAX_VALUE, -Double.MAX_VALUE)).isFalse();
    assertThat(Quantity.same(Double.NaN, Double.NaN)).isFalse();
  }

  @Test
  void differentUnitsOfOneKindCanBeTheSame() {
    assertThat(Quantity.of(1, Unit.HOUR).isSameAs(Quantity.of(60, Unit.MINUTE))).isTrue();
    assertThat(Quantity.of(1, Unit.HOUR)).isNotEqualTo(Quantity.of(60, Unit.MINUTE));
    assertThat(Quantity.of(60, Unit.BPM).isSameAs(Quantity.of(60, Unit.RPM))).isFalse();
  }

  @Test
  void refusesWhatIsNoAmountAndAnotherKind() {
    assertThatExceptionOfType(ValueRefused.class)
        .isThrownBy(() -> Quantity.of(Double.NaN, Unit.BPM))
        .withMessage("G623: an amount in bpm cannot be NaN; give a finite number");
    assertThatExceptionOfType(ValueRefused.class)
        .isThrownBy(() -> Quantity.of(1, Unit.BPM).in(Unit.MMHG))
        .withMessage("G623: 1 bpm cannot be given in mmHg; it is a heart rate, not a pressure");
  }

  @Test
  void isRoundedHalfUpForShowing() {
    assertThat(Quantity.of(2.345, Unit.MET).rounded(2)).hasToString("2.35 MET");
    assertThat(Quantity.ofBase(35, Unit.MET)).hasToString("10 MET");
  }

  // 1.7 mph are 45.59808 m/min, which divided back are 1.6999999999999997 mph.
  @Test
  void whatWasWrittenShortComesBackShort() {
    double base = Quantity.of(1.7, Unit.MPH).base();
    assertThat(Unit.MPH.fromBase(base)).isNotEqualTo(1.7);
    assertThat(Quantity.ofBase(base, Unit.MPH)).isEqualTo(Quantity.of(1.7, Unit.MPH));
  }

  @Property
  void everyShortDecimalComesBackInEveryUnit(
      @ForAll Unit unit, @ForAll @IntRange(min = -100_000, max = 100_000) int thousandths) {
    Quantity written = Quantity.of(thousandths / 1000.0, unit);
    assertThat(Quantity.ofBase(written.base(), unit)).isEqualTo(written);
  }

  @Property
  void anAmountThatIsNoShortDecimalStaysWhatItIs(
      @ForAll Unit unit, @ForAll @DoubleRange(min = -1e6, max = 1e6) double base) {
    Quantity found = Quantity.ofBase(base, unit);
    assertThat(Quantity.same(found.base(), base)).isTrue();
    assertThat(found.amount() == unit.fromBase(base) || found.base() == base).isTrue();
  }
}
