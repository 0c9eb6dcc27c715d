package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What stands behind an answer, with the numbers filled in. */
class ExplanationTest {

  private static String explained(Bench bench, String condition) {
    return bench.condition(condition).filled(bench.frame()).toString();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "150 | heart_rate [150 bpm] > 150 bpm",
        "150.00002 | heart_rate [150.00002 bpm] > 150 bpm",
        "149.99998 | heart_rate [150 bpm] > 150 bpm",
        "150.00000000001 | heart_rate [150 bpm] > 150 bpm",
        "133.3333333333333 | heart_rate [133.333 bpm] > 150 bpm",
      })
  void aNumberHasAsManyDigitsAsItsVerdictNeeds(double rate, String text) {
    assertThat(explained(new Bench().read("heart_rate", rate), "heart_rate > 150 bpm"))
        .isEqualTo(text);
  }

  @Test
  void alsoWhereTheNumbersArePartsOfASum() {
    Bench bench = new Bench().read("heart_rate", 100000.4).read("resting.heart_rate", 99999.8);
    assertThat(explained(bench, "heart_rate - resting.heart_rate > 0.5 bpm"))
        .isEqualTo("heart_rate [100000.4 bpm] - resting.heart_rate [99999.8 bpm] > 0.5 bpm");
    assertThat(explained(bench, "heart_rate between 100000.3 bpm and 100001 bpm"))
        .isEqualTo("heart_rate [100000.4 bpm] between 100000.3 bpm and 100001 bpm");
  }

  @Test
  void aChoiceIsShownWithTheLineThatApplied() {
    Bench bench =
        new Bench()
            .choose(
                "limit", "high: 150 bpm if gait is running", "low: resting.heart_rate + 50 bpm");
    assertThat(explained(bench, "limit > 100 bpm"))
        .isEqualTo("limit [unknown] > 100 bpm; limit [unknown] is open");
    assertThat(explained(bench.read("gait", 0).read("resting.heart_rate", 70), "limit > 100 bpm"))
        .isEqualTo(
            "limit [120 bpm] > 100 bpm;"
                + " limit [120 bpm] is low: resting.heart_rate [70 bpm] + 50 bpm");
  }

  @Test
  void aChoiceOfWhichNoLineAppliesIsNone() {
    Bench bench = new Bench().choose("limit", "high: 150 bpm if gait is running").read("gait", 0);
    assertThat(explained(bench, "limit > 100 bpm"))
        .isEqualTo("limit [unknown] > 100 bpm; limit [unknown] is none");
  }

  @Test
  void definitionsInsideDefinitionsFollowInTheOrderOfTheirUse() {
    Bench bench =
        new Bench()
            .define("hard", "rpe > 15")
            .define("enough", "hard or heart_rate > ceiling of max_heart_rate")
            .read("rpe", 16)
            .read("max_heart_rate", 180);
    assertThat(explained(bench, "not enough"))
        .isEqualTo(
            "not enough [yes]; enough [yes] is hard [yes] or heart_rate [unknown] >"
                + " ceiling [85 %] of max_heart_rate [180 bpm]; hard [yes] is rpe [16] > 15");
  }

  @Test
  void aLineThroughStagesShowsWhereItIsRead() {
    Bench bench = new Bench().read("heart_rate", 150);
    assertThat(
            explained(
                bench, "extrapolate( uptake, heart_rate, (heart_rate + 3 bpm) ) > 40 mL/kg/min"))
        .isEqualTo(
            "extrapolate( uptake, heart_rate, (heart_rate [150 bpm] + 3 bpm) ) [unknown]"
                + " > 40 mL/kg/min");
  }

  @Test
  void wordsTimesAndSignsAreShownAsTheyAreWritten() {
    Bench bench = new Bench().read("sex", 1).read("chest_pain", 0);
    assertThat(
            explained(
                bench,
                "sex is male and not chest_pain and pause < 2:30 and end_rule is near_ceiling"))
        .isEqualTo(
            "sex [male] is male and not chest_pain [no] and pause [1 min] < 2:30"
                + " and end_rule [near_ceiling] is near_ceiling");
  }
}
