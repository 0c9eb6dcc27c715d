package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.plan.Frame;
import org.junit.jupiter.api.Test;

/** What is asked for when something is not known. */
class UnknownTest {

  private static List<String> gaps(Bench bench, String condition) {
    Condition asked = bench.condition(condition);
    return asked.gaps(bench.frame()).stream().map(Gap::toString).toList();
  }

  @Test
  void aReadingThatSeveralPartsNeedIsNamedOnce() {
    Bench bench = new Bench().define("hard", "rpe > 15").define("very_hard", "rpe > 17");
    assertThat(gaps(bench, "rpe > 10 and hard and hard and very_hard"))
        .containsExactly("rpe: never taken");
  }

  @Test
  void aBranchThatIsNotTakenIsNotAskedFor() {
    Bench bench = new Bench().read("cleared", 1);
    assertThat(gaps(bench, "if cleared then rpe > 15 else systolic > 200 mmHg"))
        .containsExactly("rpe: never taken");
    assertThat(gaps(bench, "(if cleared then heart_rate else max_heart_rate) > 100 bpm"))
        .containsExactly("heart_rate: never taken");
  }

  @Test
  void anOpenChoiceAsksFirstForWhatDecidesIt() {
    Bench bench =
        new Bench().choose("limit", "high: 150 bpm if gait is running", "low: resting.heart_rate");
    assertThat(gaps(bench, "limit > 100 bpm")).containsExactly("gait: never taken");
    assertThat(gaps(bench.read("gait", 0), "limit > 100 bpm"))
        .containsExactly("resting.heart_rate: never taken");
  }

  @Test
  void aChoiceWithoutAnAnswerSaysSo() {
    Bench bench =
        new Bench()
            .choose("limit", "high: 150 bpm if gait is running")
            .choose("other", "none: none if gait is walking", "high: 150 bpm")
            .read("gait", 0);
    assertThat(gaps(bench, "limit > 100 bpm")).containsExactly("limit: none in this case");
    assertThat(gaps(bench, "other > 100 bpm")).containsExactly("other: none in this case");
  }

  @Test
  void aFormulaWithoutAValueSaysWhichPartHasNone() {
    Bench bench = new Bench().read("rpe", 0);
    assertThat(gaps(bench, "1 + 10 / rpe > 3"))
        .containsExactly("10 / rpe: no value for these numbers");
    assertThat(gaps(bench, "change(rpe, 1 min) > 3")).containsExactly("rpe: never taken");
    assertThat(gaps(bench, "exp(1000) > 3"))
        .containsExactly("exp(1000): no value for these numbers");
  }

  @Test
  void aLineThroughStagesThatIsNotThereIsNamed() {
    assertThat(
            gaps(
                new Bench().read("heart_rate", 100),
                "extrapolate(speed, heart_rate, heart_rate) > 3 mph"))
        .containsExactly("speed: never taken");
  }

  @Test
  void aReadingThatIsNoNumberIsNoReading() {
    Bench bench = new Bench();
    Condition asked = bench.condition("rpe > 3");
    Frame frame = bench.frame();
    for (double strange : new double[] {Double.NaN, Double.POSITIVE_INFINITY}) {
      frame.set(0, strange, 0);
      assertThat(asked.test(frame).isKnown()).isFalse();
      assertThat(asked.gaps(frame))
          .extracting(Gap::toString)
          .containsExactly("rpe: no value for these numbers");
    }
    frame.set(0, 4, 0);
    assertThat(asked.test(frame).isKnown()).isTrue();
  }
}
