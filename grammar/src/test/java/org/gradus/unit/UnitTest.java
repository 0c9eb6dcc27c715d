package org.gradus.unit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.RuleText;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** The factors against the definitions that set them, and units in and out of text. */
class UnitTest {

  /** One of the unit is numerator / denominator of the base unit of its kind. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // Units of exercise physiology by the yard of 0.9144 m and the pound of 0.45359237 kg:
        // international yard and pound agreement, U.S. Federal Register 24 FR 5348, 1 July 1959.
        "INCH | 0.9144 | 36",
        "FOOT | 0.9144 | 3",
        "MILE | 0.9144 * 1760 | 1",
        "MPH | 0.9144 * 1760 | 60",
        "POUND | 0.45359237 | 1",
        // Standard acceleration of gravity 9.80665 m/s2: 3rd General Conference on Weights and
        // Measures, 1901; ISO 80000-3.
        "KILOPOND | 9.80665 | 1",
        "KGM_PER_MINUTE | 9.80665 | 60",
        // Conventional millimetre of mercury: density 13 595.1 kg/m3 by standard gravity; NIST
        // Special Publication 811 (2008), appendix B.8: 133.3224 Pa.
        "KPA | 1000 | 13595.1 * 9.80665 * 0.001",
        // Minute, hour, litre: units accepted with the SI; SI Brochure, 9th edition, table 8.
        "MINUTE | 60 | 1",
        "HOUR | 60 * 60 | 1",
        "L_PER_MINUTE | 1000 | 1",
        "KMH | 1000 | 60",
        "METRE_PER_SECOND | 60 | 1",
        "CENTIMETRE | 1 | 100",
        "KILOMETRE | 1000 | 1",
        "PERCENT | 1 | 100",
        // Thermochemical calorie of 4.184 J: NIST Special Publication 811 (2008), appendix B.8.
        "KJ | 1 | 4.184",
        "KJ_PER_MINUTE | 1 | 4.184",
        // Conventions of the trade: 1 MET is 3.5 mL/kg/min; up, up, down, down is one cycle.
        "MET | 3.5 | 1",
        "STEPS_PER_MINUTE | 1 | 4",
        // Hertz is one per second, a decilitre a tenth of a litre; SI Brochure, 9th edition.
        "HERTZ | 60 | 1",
        "G_PER_L | 1000 | 10",
        "MINUTE_PER_MILE | 1000 | 0.9144 * 1760",
      })
  void factorsAreTheDefinedOnes(Unit unit, String numerator, String denominator) {
    double exact =
        product(numerator).divide(product(denominator), MathContext.DECIMAL128).doubleValue();
    assertThat(unit.toBase(1)).isEqualTo(exact, within(Math.ulp(exact)));
    assertThat(unit.fromBase(exact)).isEqualTo(1, within(Math.ulp(1.0)));
  }

  private static BigDecimal product(String factors) {
    return Stream.of(factors.split("\\*", -1))
        .map(factor -> new BigDecimal(factor.strip()))
        .reduce(BigDecimal.ONE, BigDecimal::multiply);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // NIST Special Publication 811 (2008), appendix B.8, to the digits printed there.
        "1 mmHg | kPa | 0.1333224 | 5e-8",
        "1 mph | m/s | 0.44704 | 1e-12",
        "1 mph | km/h | 1.609344 | 1e-12",
        "1 lb | kg | 0.4535924 | 5e-8",
        // A mile is 1.609344 km, so a minute for it is 0.62137 min for a kilometre.
        "1 min/mile | min/km | 0.6213712 | 5e-8",
        // Sixty over standard gravity.
        "1 W | kgm/min | 6.118297 | 5e-7",
      })
  void conversionsAgreeWithPublishedTables(String text, String unit, double expected, double half) {
    assertThat(parsed(text).in(Unit.named(unit).orElseThrow())).isEqualTo(expected, within(half));
  }

  @Test
  void everyUnitThatIsNoBaseUnitIsTestedAgainstItsDefinition() {
    String tested =
        "INCH FOOT MILE MPH POUND KILOPOND KGM_PER_MINUTE KPA MINUTE HOUR L_PER_MINUTE KMH"
            + " METRE_PER_SECOND CENTIMETRE KILOMETRE PERCENT KJ KJ_PER_MINUTE MET STEPS_PER_MINUTE"
            + " HERTZ MINUTE_PER_MILE G_PER_L";
    assertThat(Arrays.stream(Unit.values()).filter(unit -> unit != unit.kind().base()))
        .extracting(Unit::name)
        .containsExactlyInAnyOrder(tested.split(" "));
  }

  @ParameterizedTest
  @EnumSource
  void everyKindHasOneBaseUnitOfFactorOne(Kind kind) {
    assertThat(kind.base().toBase(12.5)).isEqualTo(12.5);
    assertThat(kind.base().kind()).isEqualTo(kind);
    assertThat(Kind.named(kind.id())).contains(kind);
    assertThat(kind.phrase()).endsWith(kind.words()).startsWith("a");
  }

  @Test
  void noTwoUnitsShareASpelling() {
    List<String> spellings =
        Arrays.stream(Unit.values()).flatMap(Unit::spellings).collect(Collectors.toList());
    assertThat(spellings).doesNotHaveDuplicates();
  }

  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "ONE")
  void everySpellingOfAUnitIsReadInRules(Unit unit) {
    assertThat(unit.spellings()).allSatisfy(it -> assertThat(Unit.named(it)).contains(unit));
    assertThat(unit.spellings())
        .allSatisfy(it -> assertThat(parsed("2.5 " + it)).isEqualTo(Quantity.of(2.5, unit)));
  }

  @Test
  void upperAndLowerCaseMatter() {
    assertThat(Unit.named("MMHG")).isEmpty();
    assertThat(Unit.named("")).isEmpty();
  }

  @Property(tries = 3000)
  void thereAndBackIsTheSame(
      @ForAll Unit unit, @ForAll @DoubleRange(min = -1e6, max = 1e6) double amount) {
    assertThat(unit.fromBase(unit.toBase(amount))).isEqualTo(amount, within(4 * Math.ulp(amount)));
    for (Unit other : Unit.values()) {
      if (other.kind() == unit.kind()) {
        Quantity converted = Quantity.of(Quantity.of(amount, unit).in(other), other);
        assertThat(converted.isSameAs(Quantity.of(amount, unit))).isTrue();
      }
    }
  }

  @Property(tries = 3000)
  void whatIsPrintedReadsBack(
      @ForAll Unit unit, @ForAll @DoubleRange(min = -1e6, max = 1e6) double amount) {
    Quantity quantity = Quantity.of(amount, unit);
    Quantity back = parsed(quantity.toString());
    assertThat(back.isSameAs(quantity)).isTrue();
    assertThat(back).hasToString(quantity.toString());
  }

  private static Quantity parsed(String text) {
    Problems problems = new Problems();
    return RuleText.quantity(Span.all("test", text), problems)
        .orElseThrow(() -> new AssertionError(problems.sorted().toString()));
  }
}
