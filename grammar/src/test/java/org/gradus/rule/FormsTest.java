package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every form of the language passes on what is missing, and shows its numbers. */
class FormsTest {

  private final Bench bench = new Bench();

  @ParameterizedTest
  @ValueSource(
      strings = {
        "-rpe",
        "rpe + 1",
        "1 + rpe",
        "rpe - 1",
        "1 - rpe",
        "rpe * 2",
        "2 * rpe",
        "rpe / 2",
        "2 / rpe",
        "5 % of rpe",
        "rpe of 2",
        "rpe ^ 2",
        "2 ^ rpe",
        "rpe in %",
        "(rpe as bpm) in bpm",
        "abs(rpe)",
        "ln(rpe)",
        "exp(rpe)",
        "sqrt(rpe)",
        "lesser(rpe, 1)",
        "lesser(1, rpe)",
        "greater(rpe, 1)",
        "greater(1, rpe)",
        "round(rpe, 1)",
        "if rpe > 1 then 1 else 2",
        "if 1 > 2 then 1 else rpe",
        "lookup(age_factor, rpe as years)",
      })
  void aValueLacksWhatItsPartLacks(String text) {
    assertThat(bench.formula(text, Kind.NUMBER).gaps(bench.frame()))
        .containsExactly(Gap.now("rpe", Gap.Cause.NEVER_TAKEN));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "not (rpe > 1) | rpe",
        "rpe > 1 or rpe < 0 | rpe",
        "rpe > 1 and rpe < 3 | rpe",
        "1 < rpe | rpe",
        "rpe between 0 and 1 | rpe",
        "1 between rpe and 2 | rpe",
        "1 between 0 and rpe | rpe",
        "if rpe > 1 then 1 < 2 else 1 > 2 | rpe",
        "cleared | cleared",
        "not cleared | cleared",
        "sex is male | sex",
        "chest_pain or cleared | chest_pain, cleared",
      })
  void aConditionLacksWhatItsPartLacks(String text, String subjects) {
    assertThat(bench.condition(text).gaps(bench.frame()))
        .extracting(Gap::subject)
        .containsExactly(subjects.split(", "));
  }

  @Test
  void aLoadThatIsSolvedForLacksTheOtherLoadsAndTheUptake() {
    assertThat(bench.formula("load_for(walking, speed, uptake)", Kind.SPEED).gaps(bench.frame()))
        .extracting(Gap::subject)
        .containsExactlyInAnyOrder("grade", "uptake");
    bench.read("grade", 0.1);
    assertThat(bench.formula("load_for(walking, speed, uptake)", Kind.SPEED).gaps(bench.frame()))
        .extracting(Gap::subject)
        .containsExactly("uptake");
  }

  @Test
  void aLineLacksItsStagesAndWhereItIsRead() {
    assertThat(
            bench
                .formula("extrapolate(uptake, heart_rate, max_heart_rate)", Kind.UPTAKE)
                .gaps(bench.frame()))
        .extracting(Gap::cause)
        .containsOnly(Gap.Cause.NEVER_TAKEN)
        .hasSizeGreaterThan(1);
    assertThat(
            bench
                .formula("extrapolate(uptake, heart_rate, max_heart_rate)", Kind.UPTAKE)
                .gaps(bench.frame()))
        .extracting(Gap::subject)
        .contains("max_heart_rate");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "pause * 1.5 | 1:30",
        "pause * 65 | 1:05:00",
        "0 s | 0:00",
        "2.5 s | 2.5 s",
        "0 s - 90 s | -90 s",
        "5 bpm | 5 bpm",
        "if cleared then 1 min else 2 min | unknown",
      })
  void timesAreShownAsOnAClock(String text, String shown) {
    bench.define("some", text);
    assertThat(bench.condition("known(some)").filled(bench.frame()).text())
        .isEqualTo("known(some [" + shown + "])");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "rpe > 50 | rpe [100.123] > 50",
        "rpe between 50 and 150 | rpe [100.123] between 50 and 150",
        "rpe > 100.1234 | rpe [100.1234567] > 100.1234",
        "rpe between 50 and 100.1234 | rpe [100.1234567] between 50 and 100.1234",
        "rpe between 100.1234 and 150 | rpe [100.1234567] between 100.1234 and 150",
        "rpe > grade | rpe [100.123] > grade [unknown]",
        "sex is male | sex [male] is male",
        "gait is running | gait [unknown] is running",
        "end_rule is near_ceiling | end_rule [near_ceiling] is near_ceiling",
        "chest_pain or not cleared | chest_pain [unknown] or not cleared [yes]",
      })
  void numbersAreShownAsShortAsTheVerdictAllows(String text, String shown) {
    bench.read("rpe", 100.1234567).read("sex", 1).read("cleared", 1);
    assertThat(bench.condition(text).filled(bench.frame()).text()).isEqualTo(shown);
  }

  @Test
  void aTextThatIsOnlyADefinitionIsShownByIt() {
    Filled.Definition steady = new Filled.Definition("steady", "yes", "rpe [3] > 2");
    assertThat(Filled.of("", List.of(steady))).hasToString("steady [yes] is rpe [3] > 2");
    assertThat(Filled.of("steady [yes]", List.of(steady)))
        .hasToString("steady [yes]; steady [yes] is rpe [3] > 2");
  }

  @Test
  void inANewFrameNothingIsKnown() {
    bench.condition("rpe > 1");
    Frame frame = new Frame(bench.layout.build());
    assertThat(frame.isKnown(0)).isFalse();
    assertThat(frame.value(0)).isNaN();
    assertThat(frame.gap(0).cause()).isEqualTo(Gap.Cause.NEVER_TAKEN);
  }
}
