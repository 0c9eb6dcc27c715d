package org.gradus.rule.bounds;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.rule.check.Table;
import org.gradus.unit.Kind;
import org.junit.jupiter.api.Test;

/** Arithmetic of ranges, worked by hand, and where it may have no value. */
class NumberRangeTest {

  private static NumberRange known(double low, double high) {
    return new NumberRange(low, high, Presence.KNOWN);
  }

  private static NumberRange maybe(double low, double high) {
    return new NumberRange(low, high, Presence.MAYBE);
  }

  @Test
  void aDivisorThatTouchesZeroLeavesEverythingOpen() {
    NumberRange number = known(1, 2);
    assertThat(number.over(known(0, 1))).isEqualTo(NumberRange.ANYTHING);
    assertThat(number.over(known(-1, 0))).isEqualTo(NumberRange.ANYTHING);
    assertThat(number.over(known(-1, 1))).isEqualTo(NumberRange.ANYTHING);
    assertThat(number.over(known(2, 4))).isEqualTo(known(0.25, 1));
    assertThat(number.over(known(-4, -2))).isEqualTo(known(-1, -0.25));
  }

  @Test
  void whatIsNotThereStaysAway() {
    assertThat(known(1, 2).plus(NumberRange.UNKNOWN)).isEqualTo(NumberRange.UNKNOWN);
    assertThat(NumberRange.UNKNOWN.plus(known(1, 2))).isEqualTo(NumberRange.UNKNOWN);
    assertThat(known(1, 2).plus(maybe(1, 2))).isEqualTo(maybe(2, 4));
    assertThat(NumberRange.UNKNOWN.negative().isEmpty()).isTrue();
    assertThat(known(1, 2).join(NumberRange.UNKNOWN)).isEqualTo(maybe(1, 2));
    assertThat(NumberRange.UNKNOWN.join(known(1, 2))).isEqualTo(maybe(1, 2));
    assertThat(known(1, 2).join(known(5, 6))).isEqualTo(known(1, 6));
  }

  @Test
  void anOverflowMayBeUnknown() {
    assertThat(known(1e200, 1e300).times(known(1, 1e200)).presence()).isEqualTo(Presence.MAYBE);
  }

  @Test
  void theDistanceFromZeroIsNeverBelowIt() {
    assertThat(known(2, 3).absolute()).isEqualTo(known(2, 3));
    assertThat(known(0, 0).absolute()).isEqualTo(known(0, 0));
    assertThat(known(-3, -2).absolute()).isEqualTo(known(2, 3));
    assertThat(known(-3, 2).absolute()).isEqualTo(known(0, 3));
    assertThat(known(-2, 3).absolute()).isEqualTo(known(0, 3));
  }

  @Test
  void rootsAndLogarithmsHaveNoValueBelowZero() {
    assertThat(known(4, 9).root()).isEqualTo(known(2, 3));
    assertThat(known(0, 4).root()).isEqualTo(known(0, 2));
    assertThat(known(-1, 4).root()).isEqualTo(maybe(0, 2));
    assertThat(known(-1, 0).root()).isEqualTo(maybe(0, 0));
    assertThat(known(-2, -1).root()).isEqualTo(NumberRange.UNKNOWN);
    assertThat(known(-1, 0).logarithm()).isEqualTo(NumberRange.UNKNOWN);
    assertThat(known(1, 1).logarithm()).isEqualTo(known(0, 0));
    assertThat(known(-1, 1).logarithm()).isEqualTo(maybe(Double.NEGATIVE_INFINITY, 0));
    assertThat(known(0, 0).exponential()).isEqualTo(known(1, 1));
  }

  @Test
  void anEvenPowerDipsToZero() {
    assertThat(known(-2, 3).power(known(2, 2))).isEqualTo(known(0, 9));
    assertThat(known(-3, -1).power(known(2, 2))).isEqualTo(known(1, 9));
    assertThat(known(1, 3).power(known(2, 2))).isEqualTo(known(1, 9));
    assertThat(known(-2, 3).power(known(3, 3))).isEqualTo(known(-8, 27));
    assertThat(known(-2, 3).power(known(0, 0))).isEqualTo(known(1, 1));
    assertThat(known(4, 9).power(known(0.5, 0.5))).isEqualTo(known(2, 3));
    assertThat(known(2, 4).power(known(1, 2))).isEqualTo(known(2, 16));
  }

  @Test
  void aPowerThatHasNoValueSomewhereLeavesEverythingOpen() {
    assertThat(known(0, 4).power(known(-0.5, -0.5))).isEqualTo(NumberRange.ANYTHING);
    assertThat(known(-1, 4).power(known(-1, -1))).isEqualTo(NumberRange.ANYTHING);
    assertThat(known(-1, 4).power(known(0, 2))).isEqualTo(NumberRange.ANYTHING);
    assertThat(known(1, 2).power(NumberRange.UNKNOWN)).isEqualTo(NumberRange.UNKNOWN);
    assertThat(NumberRange.UNKNOWN.power(known(1, 2))).isEqualTo(NumberRange.UNKNOWN);
  }

  @Test
  void theLesserAndTheGreaterTakeTheEndsThatCount() {
    assertThat(known(1, 5).lesser(known(2, 3))).isEqualTo(known(1, 3));
    assertThat(known(1, 5).greater(known(2, 3))).isEqualTo(known(2, 5));
    assertThat(known(1, 5).lesser(NumberRange.UNKNOWN)).isEqualTo(NumberRange.UNKNOWN);
    assertThat(NumberRange.UNKNOWN.lesser(known(1, 5))).isEqualTo(NumberRange.UNKNOWN);
    assertThat(known(1, 5).greater(NumberRange.UNKNOWN)).isEqualTo(NumberRange.UNKNOWN);
    assertThat(NumberRange.UNKNOWN.greater(known(1, 5))).isEqualTo(NumberRange.UNKNOWN);
  }

  @Test
  void roundingNeedsOneStepAboveZero() {
    assertThat(known(112, 118).rounded(known(5, 5))).isEqualTo(known(110, 120));
    assertThat(known(112, 118).rounded(known(0, 0))).isEqualTo(NumberRange.ANYTHING);
    assertThat(known(112, 118).rounded(known(-5, -5))).isEqualTo(NumberRange.ANYTHING);
    assertThat(known(112, 118).rounded(known(5, 6))).isEqualTo(NumberRange.ANYTHING);
    assertThat(NumberRange.UNKNOWN.rounded(known(5, 5))).isEqualTo(NumberRange.UNKNOWN);
    assertThat(known(1, 2).rounded(NumberRange.UNKNOWN)).isEqualTo(NumberRange.UNKNOWN);
  }

  @Test
  void aTableHasItsExtremesAtItsRows() {
    List<Table.Point> hill =
        List.of(new Table.Point(10, 0), new Table.Point(20, 5), new Table.Point(30, 1));
    Table refusing = table(hill, Table.Beyond.REFUSE);
    assertThat(known(15, 25).through(refusing)).isEqualTo(known(2.5, 5));
    assertThat(known(10, 15).through(refusing)).isEqualTo(known(0, 2.5));
    assertThat(known(10, 30).through(refusing)).isEqualTo(known(0, 5));
    assertThat(known(30, 30).through(refusing)).isEqualTo(known(1, 1));
    assertThat(known(5, 10).through(refusing)).isEqualTo(maybe(0, 0));
    assertThat(known(30, 35).through(refusing)).isEqualTo(maybe(1, 1));
    assertThat(known(5, 9).through(refusing)).isEqualTo(NumberRange.UNKNOWN);
    assertThat(known(31, 35).through(refusing)).isEqualTo(NumberRange.UNKNOWN);
    assertThat(NumberRange.UNKNOWN.through(refusing)).isEqualTo(NumberRange.UNKNOWN);
    Table nearest = table(hill, Table.Beyond.NEAREST);
    assertThat(known(5, 9).through(nearest)).isEqualTo(known(0, 0));
    assertThat(known(31, 35).through(nearest)).isEqualTo(known(1, 1));
    assertThat(known(5, 35).through(nearest)).isEqualTo(known(0, 5));
  }

  private static Table table(List<Table.Point> rows, Table.Beyond beyond) {
    return new Table("hill", Kind.NUMBER, Kind.NUMBER, rows, Table.Between.LINE, beyond);
  }

  @Test
  void comparisonsSeeBothAnswersWhereRangesOverlap() {
    assertThat(known(1, 2).isBelow(known(3, 4))).isEqualTo(Outcomes.HOLDS);
    assertThat(known(3, 4).isBelow(known(1, 2))).isEqualTo(Outcomes.FAILS);
    assertThat(known(1, 2).isBelow(known(1, 1))).isEqualTo(Outcomes.FAILS);
    assertThat(known(1, 1).isBelow(known(1, 2))).isEqualTo(new Outcomes(true, true, false));
    assertThat(known(1, 2).isAtMost(known(2, 3))).isEqualTo(Outcomes.HOLDS);
    assertThat(known(2, 3).isAtMost(known(1, 2))).isEqualTo(new Outcomes(true, true, false));
    assertThat(known(3, 4).isAtMost(known(1, 2))).isEqualTo(Outcomes.FAILS);
    assertThat(known(1, 2).isBelow(NumberRange.UNKNOWN)).isEqualTo(Outcomes.UNKNOWN);
    assertThat(NumberRange.UNKNOWN.isAtMost(known(1, 2))).isEqualTo(Outcomes.UNKNOWN);
    assertThat(maybe(1, 2).isBelow(known(3, 4))).isEqualTo(new Outcomes(true, false, true));
    assertThat(known(1, 2).isBelow(maybe(3, 4))).isEqualTo(new Outcomes(true, false, true));
  }

  @Test
  void twoPointsAreEqualOrNotAndRangesMayBe() {
    assertThat(known(1, 1).isEqualTo(known(1, 1))).isEqualTo(Outcomes.HOLDS);
    assertThat(known(1, 1).isEqualTo(known(2, 2))).isEqualTo(Outcomes.FAILS);
    assertThat(known(1, 2).isEqualTo(known(1, 1))).isEqualTo(new Outcomes(true, true, false));
    assertThat(known(1, 1).isEqualTo(known(1, 2))).isEqualTo(new Outcomes(true, true, false));
    assertThat(known(1, 2).isEqualTo(known(3, 4))).isEqualTo(Outcomes.FAILS);
  }

  @Test
  void anInfiniteEndStandsForTheLargestReading() {
    assertThat(NumberRange.of(Cell.between(Double.NEGATIVE_INFINITY, 5)))
        .isEqualTo(known(-1e15, 5));
    assertThat(NumberRange.of(Cell.between(5, Double.POSITIVE_INFINITY))).isEqualTo(known(5, 1e15));
    assertThat(NumberRange.of(Cell.between(1, 2).with(Presence.UNKNOWN)))
        .isEqualTo(NumberRange.UNKNOWN);
  }
}
