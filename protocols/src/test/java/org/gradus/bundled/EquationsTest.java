package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;

/** The bundled equations against printed answers; sources stand in the tables. */
class EquationsTest {

  @ParameterizedTest
  @CsvFileSource(resources = "published-costs.csv", numLinesToSkip = 1, delimiter = '|')
  void costsGiveThePrintedAnswers(
      String equation, String loads, double printed, double tolerance, String source) {
    assertThat(Equations.cost(equation, Equations.loads(loads)))
        .as(source)
        .isEqualTo(printed, within(tolerance));
  }

  // Master's thesis 2577, Eastern Illinois University: men 2.9 x + 563, women 3.3 x + 436 mL/min,
  // worked by hand at 300 kgm/min.
  @Test
  void uprightArmCrankingDiffersByTheSexOfThePerson() {
    assertThat(upright("male")).isEqualTo(1433, within(0.1));
    assertThat(upright("female")).isEqualTo(1426, within(0.1));
  }

  private static double upright(String sex) {
    return Equations.costOf(
        "arm_cranking_upright",
        Map.of("power", Quantity.of(300, Unit.KGM_PER_MINUTE)),
        Map.of("sex", sex));
  }

  // Each printed unit factor is an equation of its own: 6 kgm/min per watt in one, the exact 6.118
  // in the other; 100 W and 70 kg give 22.43 and 22.73 (computed).
  @Test
  void theTwoPrintedFormsOfTheCycleEquationAreNotTheSame() {
    Map<String, Quantity> given = Equations.loads("power 100 W; mass 70 kg");
    assertThat(Equations.cost("leg_cycling_kgm", given) - Equations.cost("leg_cycling_watt", given))
        .isBetween(0.25, 0.35);
  }

  @ParameterizedTest
  @CsvFileSource(resources = "maxima.csv", numLinesToSkip = 1, delimiter = '|')
  void maximaAreWorkedOutAsPrintedAndOnlyForWhomTheyWereMade(
      String equation, String sex, String at20, String at40, String at60, String at70) {
    check(equation, sex, 20, at20);
    check(equation, sex, 40, at40);
    check(equation, sex, 60, at60);
    check(equation, sex, 70, at70);
  }

  private static void check(String equation, String sex, int age, String expected) {
    double rate = Equations.maximum(equation, age, sex, false);
    if (expected == null) {
      assertThat(rate).as("%s at %d", equation, age).isNaN();
    } else {
      assertThat(rate)
          .as("%s at %d", equation, age)
          .isEqualTo(Double.parseDouble(expected), within(0.0501));
    }
  }

  // Brawner CA et al. Am Heart J 2004;148:910-914: 164 - 0.7 x age under beta-blockade, 40 to 80
  // years; worked by hand.
  @ParameterizedTest
  @CsvSource({"40, 136", "60, 122", "70, 115"})
  void underBetaBlockadeTheMaximumIsItsOwnEquation(int age, double expected) {
    assertThat(Equations.maximum("slowed_2004", age, "male", true))
        .isEqualTo(expected, within(0.05));
    assertThat(Equations.maximum("slowed_2004", age, "male", false)).isNaN();
    assertThat(Equations.maximum("slowed_2004", 39, "male", true)).isNaN();
  }

  @Test
  void noEquationIsWithoutACheck() throws IOException {
    String checked = table("published-costs.csv") + table("maxima.csv") + "arm_cranking_upright|";
    List<String> unchecked =
        Equations.ids().stream().filter(id -> !checked.contains(id + "|")).toList();
    assertThat(unchecked).isEmpty();
  }

  private static String table(String name) throws IOException {
    try (InputStream stream = EquationsTest.class.getResourceAsStream(name)) {
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
