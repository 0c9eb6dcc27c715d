package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.gradus.rule.answer.Truth;
import org.gradus.unit.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Examples of the language for people to read. */
class LanguageTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "1 + 2 * 3 | 7",
        "(1 + 2) * 3 | 9",
        "-2 ^ 2 | -4",
        "2 ^ 3 ^ 2 | 512",
        "2 ^ -1 | 0.5",
        "10 - 4 - 3 | 3",
        "2 * 50 % of 8 | 8",
        "10 % | 0.1",
        "0.25 in % | 25",
        "60 min in h | 1",
        "1 MET in mL/kg/min | 3.5",
        "(45 as kg) in lb | 99.208018",
        "if 1 < 2 then 3 else 4 | 3",
        "lesser(3, 2) + greater(3, 2) | 5",
        "round(2.5, 1) | 3",
        "round(-2.5, 1) | -2",
        "abs(-3) | 3",
        "sqrt(9) + ln(exp(1)) | 4",
        "2:30 in s | 150",
        "1:00:00 in min | 60",
      })
  void computes(String text, double expected) {
    Bench bench = new Bench();
    assertThat(bench.formula(text, Kind.NUMBER).value(bench.frame()))
        .isEqualTo(expected, within(1e-6));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "heart_rate > 100 bpm | TRUE",
        "heart_rate = 110 bpm | TRUE",
        "heart_rate between 110 bpm and 120 bpm | TRUE",
        "heart_rate between 111 bpm and 120 bpm | FALSE",
        "systolic > 250 mmHg | UNKNOWN",
        "systolic > 250 mmHg and heart_rate < 100 bpm | FALSE",
        "systolic > 250 mmHg or heart_rate > 100 bpm | TRUE",
        "systolic > 250 mmHg or heart_rate < 100 bpm | UNKNOWN",
        "not systolic > 250 mmHg | UNKNOWN",
        "known(systolic) | FALSE",
        "known(heart_rate) and known(sex) | TRUE",
        "if systolic > 250 mmHg then heart_rate > 0 bpm else heart_rate > 1 bpm | TRUE",
        "if systolic > 250 mmHg then heart_rate > 0 bpm else heart_rate > 200 bpm | UNKNOWN",
        "heart_rate / (heart_rate - heart_rate) > 3 | UNKNOWN",
        "sex is male | FALSE",
        "sex is not male | TRUE",
        "gait is running | UNKNOWN",
        "end_rule is near_ceiling | TRUE",
        "85 % of 180 bpm = 153 bpm | TRUE",
        "1.5 mph > 40 m/min | TRUE",
      })
  void answers(String text, Truth expected) {
    Bench bench = new Bench().read("heart_rate", 110).read("sex", 0);
    assertThat(bench.condition(text).test(bench.frame())).isEqualTo(expected);
  }

  @Test
  void aChainOfProductsIsSeenAsAWhole() {
    Bench bench =
        new Bench().read("uptake", 24).read("max_heart_rate", 174).read("heart_rate", 138);
    Formula formula =
        bench.formula("uptake * (max_heart_rate - 72 bpm) / (heart_rate - 72 bpm)", Kind.UPTAKE);
    assertThat(formula.value(bench.frame())).isEqualTo(24.0 * 102 / 66, within(1e-12));
  }

  @Test
  void anUnknownNamesWhatWouldSettleIt() {
    Bench bench = new Bench().read("heart_rate", 110);
    Condition condition =
        bench.condition("abs(change(heart_rate, 1 min)) <= steady_band and systolic > 90 mmHg");
    assertThat(condition.gaps(bench.frame()))
        .extracting(Object::toString)
        .containsExactly("heart_rate: never taken", "systolic: never taken");
  }

  @Test
  void anExplanationShowsTheNumbers() {
    Bench bench =
        new Bench()
            .define("steady", "abs(change(heart_rate, 1 min)) <= steady_band")
            .read("heart_rate", 110)
            .earlier("heart_rate", 60, 104, 0);
    Condition condition = bench.condition("not steady\n   or heart_rate > 85 % of max_heart_rate");
    assertThat(condition.filled(bench.frame()))
        .hasToString(
            "not steady [no] or heart_rate [110 bpm] > 85 % of max_heart_rate [unknown]; "
                + "steady [no] is abs(change(heart_rate, 1 min) [6 bpm]) <= steady_band [5 bpm]");
  }

  @Test
  void aReadingAsCoarseAsItsStepLeavesTheAnswerOpen() {
    Bench bench =
        new Bench()
            .define("steady", "abs(change(heart_rate, 1 min)) <= steady_band")
            .read("heart_rate", 110, 2)
            .earlier("heart_rate", 60, 106, 2);
    Condition steady = bench.condition("steady");
    assertThat(steady.outcomes(Resolution.around(bench.frame())).canFail()).isTrue();
    assertThat(steady.undecided(Resolution.around(bench.frame())))
        .containsExactly("abs(change(heart_rate, 1 min)) <= steady_band");
    bench.earlier("heart_rate", 60, 110, 2);
    assertThat(steady.outcomes(Resolution.around(bench.frame())).alwaysHolds()).isTrue();
  }

  @Test
  void aRuleKnowsItsActionAndPause() {
    Rule rule = new Bench().rule("hold pause at most 2 times when heart_rate > 100 bpm");
    assertThat(rule.pause()).hasValueSatisfying(pause -> assertThat(pause).hasMinutes(1));
    assertThat(rule.text()).isEqualTo("hold pause at most 2 times when heart_rate > 100 bpm");
  }

  // Worked by hand: half way between 1.00 at 25 and 0.87 at 35 years.
  @Test
  void aTableIsReadBetweenItsRowsAndNotBeyondThem() {
    Bench bench = new Bench();
    Formula factor = bench.formula("lookup(age_factor, age)", Kind.NUMBER);
    assertThat(factor.value(bench.read("age", 30).frame())).isEqualTo(0.935, within(1e-12));
    assertThat(factor.value(bench.read("age", 35).frame())).isEqualTo(0.87);
    assertThat(factor.filled(bench.frame()))
        .hasToString("lookup(age_factor, age [35 years]) [0.87]");
    assertThat(factor.value(bench.read("age", 41).frame())).isNaN();
    assertThat(factor.gaps(bench.frame()))
        .extracting(Object::toString)
        .containsExactly("lookup(age_factor, age): outside the table");
  }

  @Test
  void stagesAreCountedByADefinitionAndAskedForByTheirIds() {
    Bench bench = new Bench().define("fast", "heart_rate > 100 bpm");
    Condition condition = bench.condition("count(fast) >= 2 and completed(walk_1)");
    assertThat(condition.demands())
        .extracting(demand -> demand.aspect() + " " + demand.subject())
        .contains("COUNT fast", "COMPLETED walk_1", "VALUE heart_rate");
  }

  // Inverse problems of a faculty sheet: 7 MET at 10 % is 75 m/min; 8 MET at 2 mph is a grade of 20
  // %,
  // printed in whole per cent.
  @Test
  void anEquationIsSolvedForOneOfItsLoads() {
    Bench bench = new Bench().read("grade", 0.10);
    Formula speed = bench.formula("load_for(walking, speed, 7 MET)", Kind.SPEED);
    assertThat(speed.value(bench.frame())).isEqualTo(75, within(0.01));
    Bench other = new Bench().read("speed", 2 * 26.8224);
    Formula grade = other.formula("load_for(walking, grade, 8 MET)", Kind.NUMBER);
    assertThat(grade.value(other.frame())).isEqualTo(0.20, within(0.005));
    assertThat(grade.demands()).extracting(Object::toString).hasSize(1);
  }
}
