package org.gradus.rule.check;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.List;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Table.Between;
import org.gradus.rule.check.Table.Beyond;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a table gives at, between and beyond its rows; and which equations are straight lines. */
class TableTest {

  private static Table table(Between between, Beyond beyond, double... numbers) {
    List<Table.Point> rows = new java.util.ArrayList<>();
    for (int i = 0; i < numbers.length; i += 2) {
      rows.add(new Table.Point(numbers[i], numbers[i + 1]));
    }
    return new Table("t", Kind.NUMBER, Kind.NUMBER, rows, between, beyond);
  }

  @Test
  void itsRowsAscend() {
    assertThatIllegalArgumentException().isThrownBy(() -> table(Between.LINE, Beyond.REFUSE));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> table(Between.LINE, Beyond.REFUSE, 1, 0, 1, 5));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> table(Between.LINE, Beyond.REFUSE, 2, 0, 1, 5, 3, 5))
        .withMessageContaining("t");
    assertThat(table(Between.LINE, Beyond.REFUSE, 7, 3).at(7)).isEqualTo(3);
  }

  @ParameterizedTest
  @CsvSource({"10, 0", "15, 2.5", "20, 5", "25, 3", "30, 1", "9.9, NaN", "30.1, NaN", "NaN, NaN"})
  void aLineJoinsItsRows(double x, double y) {
    assertThat(table(Between.LINE, Beyond.REFUSE, 10, 0, 20, 5, 30, 1).at(x))
        .isEqualTo(Double.valueOf(y)); // the one that is no number equals itself
  }

  @ParameterizedTest
  @CsvSource({"10, 0", "19.9, 0", "20, 5", "29, 5", "30, 1", "9, 0", "31, 1"})
  void aStepHoldsUpToTheNextAndTheNearestBeyond(double x, double y) {
    assertThat(table(Between.STEP, Beyond.NEAREST, 10, 0, 20, 5, 30, 1).at(x)).isEqualTo(y);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "3.5 + 0.1 * load | true",
        "load / 2 - mass | true",
        "-load in W | true",
        "(10 % of load) as mL/kg/min | true",
        "load * abs(mass) | true",
        "load * mass ^ 2 | true",
        "load * (if cleared then 1 else 2) | true",
        "2 / load | false",
        "load * load | false",
        "load of load | false",
        "abs(load) | false",
        "load * abs(load) | false",
        "load ^ 2 | false",
        "load / load | false",
        "lesser(mass, load) | false",
        "3.5 + mass | false",
      })
  void aStraightLineIsOfTheFirstDegree(String body, boolean straight) {
    SolvableEquation equation =
        new SolvableEquation(
            "e",
            List.of("load"),
            RuleText.expression(Span.all("test", body), new Problems()).orElseThrow());
    assertThat(equation.isStraightIn("load")).isEqualTo(straight);
  }
}
