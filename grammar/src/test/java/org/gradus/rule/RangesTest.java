package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Collections;
import java.util.Map;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What can be said of a rule before its readings are taken. */
class RangesTest {

  private static Box box(Bench bench, Map<String, Cell> cells) {
    return Box.of(
        bench.layout.build(),
        (slot, demand) -> cells.getOrDefault(demand.subject(), Box.anything(demand.type())));
  }

  private static String outcomes(String text, Map<String, Cell> cells) {
    Bench bench =
        new Bench()
            .choose("limit", "high: 150 bpm if gait is running", "low: 130 bpm if gait is walking")
            .define("fast", "heart_rate > 150 bpm");
    Condition condition = bench.condition(text);
    Outcomes outcomes = condition.outcomes(box(bench, cells));
    return (outcomes.canHold() ? "yes " : "")
        + (outcomes.canFail() ? "no " : "")
        + (outcomes.canBeUnknown() ? "unknown" : "");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "heart_rate > 110 bpm | yes no",
        "heart_rate < 110 bpm | yes no",
        "heart_rate = 110 bpm | yes no",
        "heart_rate <= heart_rate | yes no",
        "fast or not fast | yes",
        "if fast then heart_rate > 140 bpm else heart_rate <= 150 bpm | yes",
        "fast and heart_rate < 140 bpm | no",
        "1 / (rpe - 10) > 0 | yes no unknown",
        "if not fast then heart_rate <= 150 bpm else heart_rate > 150 bpm | yes",
        "if heart_rate = 150 bpm then heart_rate between 150 bpm and 150 bpm else 1 < 2 | yes",
        "if rpe > 10 then 1 / (rpe - 9) > 0 else 1 < 2 | yes",
        "gait is running or gait is walking | yes",
        "limit > 100 bpm | yes",
        "known(rpe) | yes",
        "known(limit) | yes",
        "exp(rpe) > 0 | yes no unknown",
        "sqrt(rpe * rpe) >= 0 | yes unknown",
        "rpe ^ 2 >= 0 | yes",
        "abs(rpe) >= 0 | yes",
        "lesser(rpe, 5) <= 5 | yes",
        "round(rpe, 1) >= 0 | yes no",
      })
  void everyReadingTakenButFree(String text, String outcomes) {
    assertThat(outcomes(text, Map.of()).strip()).isEqualTo(outcomes);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "rpe > 3 | yes no unknown",
        "known(rpe) and rpe > 3 | yes no",
        "not known(rpe) or rpe > 3 | yes no",
        "known(rpe) and rpe > 30 | no",
        "rpe > 3 or rpe <= 3 | yes no unknown",
        "if known(rpe) then rpe > 3 else 1 < 2 | yes no",
      })
  void aReadingThatMayBeMissing(String text, String outcomes) {
    Cell cell = Cell.between(0, 20).with(Presence.MAYBE);
    assertThat(outcomes(text, Map.of("rpe", cell)).strip()).isEqualTo(outcomes);
  }

  @Test
  void aRangeFollowsTheFormula() {
    Bench bench = new Bench();
    Formula formula = bench.formula("220 bpm - 0.7 * (age in years) as bpm", Kind.HEART_RATE);
    Cell.Range range = formula.range(box(bench, Map.of("age", Cell.between(20, 70))));
    assertThat(range.low()).isEqualTo(220 - 0.7 * 70);
    assertThat(range.high()).isEqualTo(220 - 0.7 * 20);
    assertThat(range.presence()).isEqualTo(Presence.KNOWN);
  }

  @Test
  void anAssumptionNarrowsWhatItSpeaksOf() {
    Bench bench = new Bench();
    Condition condition =
        bench.condition("heart_rate > 100 bpm and sex is male and not chest_pain and known(rpe)");
    Box free =
        Box.of(
            bench.layout.build(),
            (slot, demand) -> Box.anything(demand.type()).with(Presence.MAYBE));
    Box narrow = condition.whereItHolds(free);
    assertThat(condition.outcomes(free)).isEqualTo(new Outcomes(true, true, true));
    for (int slot = 0; slot < bench.layout.build().size(); slot++) {
      assertThat(narrow.cell(slot).presence()).isEqualTo(Presence.KNOWN);
    }
    assertThat(((Cell.Range) narrow.cell(0)).low()).isBetween(100.0, 100.001);
    assertThat(((Cell.Options) narrow.cell(1)).options()).isEqualTo(0b10);
    assertThat(((Cell.Options) narrow.cell(2)).options()).isEqualTo(0b01);
  }

  @Test
  void aComparisonInsideAnArgumentIsNamedWhenItCouldComeOutEitherWay() {
    Bench bench = new Bench();
    Condition condition =
        bench.condition(
            "extrapolate(rpe, heart_rate, if age > 40 years then 150 bpm else 170 bpm) > 12");
    assertThat(condition.undecided(box(bench, Map.of("age", Cell.between(39, 41)))))
        .contains("age > 40 years");
  }

  @Test
  void whatIsReadFromASignalIsNarrowedLikeTheSignal() {
    Bench bench = new Bench();
    Box narrow =
        bench
            .condition("average(heart_rate, 1 min) >= 120 bpm")
            .whereItHolds(box(bench, Map.of("heart_rate", Cell.between(90, 150))));
    assertThat(((Cell.Range) narrow.cell(0)).low()).isBetween(119.999, 120.0);
  }

  @ParameterizedTest
  @CsvSource({"1, 1", "2, 3", "64, -1", "65, -1"})
  void aChoiceOfManyWordsHasAllOfThem(int words, long options) {
    Cell anything = Box.anything(new Type.Choice(Collections.nCopies(words, "word")));
    assertThat(anything).isEqualTo(new Cell.Options(options, Presence.KNOWN));
  }
}
