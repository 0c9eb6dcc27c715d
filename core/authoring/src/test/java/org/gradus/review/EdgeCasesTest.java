package org.gradus.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.protocol.Protocol;
import org.gradus.review.EdgeCase.Side;
import org.gradus.rule.answer.Truth;
import org.junit.jupiter.api.Test;

/** The edges of the rules of an invented walk. */
class EdgeCasesTest {

  private static final Protocol WALK = Lane.sound().protocol();

  private static List<String> edges(String rule, String comparison) {
    return EdgeCases.of(WALK).stream()
        .filter(one -> one.rule().equals(rule) && one.comparison().equals(comparison))
        .map(one -> one.side() + " " + one.value() + " " + one.holds() + " " + one.decides())
        .toList();
  }

  @Test
  void aLimitHoldsFromItsEdgeOn() {
    assertThat(edges("enough", "heart_rate >= end_at"))
        .hasSize(3)
        .element(1)
        .isEqualTo("AT 120 bpm TRUE finish (enough)");
    assertThat(edges("enough", "heart_rate >= end_at"))
        .element(0)
        .satisfies(below -> assertThat(below).isEqualTo("BELOW 119 bpm FALSE advance (next)"));
    assertThat(edges("hard", "effort > most_effort"))
        .containsExactly("BELOW 6 FALSE go on", "AT 7 FALSE go on", "ABOVE 8 TRUE finish (hard)");
  }

  @Test
  void everyComparisonOfANumberHasItsThreeSides() {
    List<EdgeCase> all = EdgeCases.of(WALK);
    assertThat(all).extracting(EdgeCase::rule).contains("enough", "wait", "hard", "roof", "calm");
    for (int i = 0; i < all.size(); i += 3) {
      assertThat(all.subList(i, i + 3))
          .extracting(EdgeCase::side)
          .containsExactly(Side.BELOW, Side.AT, Side.ABOVE);
      assertThat(all.subList(i, i + 3)).extracting(EdgeCase::holds).doesNotContain(Truth.UNKNOWN);
    }
  }

  @Test
  void theTableNamesRuleAndPlace() {
    assertThat(EdgeCases.table(EdgeCases.of(WALK)))
        .contains(
            "stage_end / enough: heart_rate >= end_at   (lane-walk.yaml:33:48, flat at 3:00)");
  }

  @Test
  void theSameProtocolGivesTheSameEdges() {
    assertThat(EdgeCases.of(WALK)).isEqualTo(EdgeCases.of(WALK));
  }

  @Test
  void whatIsHeldFixedIsSaidOnceAndTimesAreThoseOfAWatch() {
    Protocol late =
        Lane.sound()
            .with(
                "heart_rate >= end_at",
                "heart_rate >= end_at and stage.time >= 3:30 and effort > 3")
            .protocol();
    String table =
        EdgeCases.table(
            EdgeCases.of(late).stream().filter(one -> one.rule().equals("enough")).toList());
    assertThat(table)
        .containsPattern("stage.time >= 3:30   \\(lane-walk.yaml:33:\\d+, flat at 3:00\\)\n  with ")
        .contains("below  stage.time 3:29 ", "at     stage.time 3:30 ");
    // What moves along with the reading is another one on each side, and stays in the row.
    assertThat(table).contains("finish (enough)   with effort ");
  }
}
