package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.library.Meadow.wrong;
import static org.gradus.library.Meadow.wrongInWatch;

import org.junit.jupiter.api.Test;

/** What loads comes to a verdict at every stage end, and ends; what might not is refused. */
class GuaranteesTest {

  private static final String ENOUGH = "rule: finish when steady and heart_rate >= end_at";
  private static final String HILL_2 = "{ id: hill_2, lasts: 3 min, speed: 5 km/h, grade: 10 % }";

  /** A further rule at the top of the stage-end list. */
  private static java.util.List<String> rule(String sentence) {
    return wrong("stage_end:\n", "stage_end:\n  - rule: " + sentence + "\n");
  }

  @Test
  void aListClosesWithAFinishOrAnAdvanceThatAlwaysHolds() {
    assertThat(wrong("rule: advance,", "rule: advance when steady,"))
        .containsExactly("G401 \"advance when steady\"");
    assertThat(wrong("rule: advance,", "rule: hold 1 min at most 2 times,"))
        .contains("G401 \"hold 1 min at most 2 times\"");
  }

  @Test
  void aRuleBehindTheClosingOneIsNeverReached() {
    assertThat(wrong("stage_end:\n", "stage_end:\n  - rule: advance\n    id: early\n"))
        .hasSize(4)
        .allMatch(problem -> problem.startsWith("G402"));
  }

  @Test
  void waysLeadForwardsToStagesThatExistAndReachThemAll() {
    assertThat(rule("advance to flat when steady")).containsExactly("G404 \"flat\"");
    assertThat(rule("advance to hill_9 when steady")).containsExactly("G309 \"hill_9\"");
    assertThat(wrong("rule: advance,", "rule: finish,")).containsExactly("G407 \"hill_1\"");
    assertThat(
            wrong(
                HILL_2,
                "{ id: hill_2, lasts: 3 min, speed: 5 km/h, grade: 10 %,"
                    + " stage_end: [advance to hill_3] }"))
        .isEmpty();
  }

  @Test
  void eachGroupHasItsActions() {
    assertThat(rule("stop when dizzy")).containsExactly("G403 \"stop\"");
    assertThat(wrongInWatch("rule: stop when dizzy, then: rest,", "rule: advance when dizzy,"))
        .containsExactly("G403 \"advance\"");
    assertThat(wrongInWatch("rule: defer when not cleared", "rule: finish when not cleared"))
        .containsExactly("G403 \"finish\"");
  }

  @Test
  void aRuleReadsOnlyWhatIsMeasuredBeforeIt() {
    assertThat(wrong("- { read: effort, scale: effort_0_10, before_end: 15 s }", ""))
        .containsExactly("G406 \"finish when effort > most_effort\"");
    assertThat(rule("finish when change(heart_rate, 90 s) > 5 bpm"))
        .containsExactly("G406 \"finish when change(heart_rate, 90 s) > 5...\"");
    assertThat(rule("finish when change(effort, 1 min) > 2"))
        .containsExactly("G406 \"finish when change(effort, 1 min) > 2\"");
    assertThat(wrong("before_end: 15 s }", "at: 4 min }\n")).isEmpty();
    assertThat(
            wrongInWatch("rule: end when heart_rate", "rule: end when effort < 3 and heart_rate"))
        .containsExactly("G406 \"end when effort < 3 and heart_rate < res...\"");
  }

  @Test
  void aReadingMustStillBeValidWhenTheRuleIsLookedAt() {
    assertThat(wrong("before_end: 15 s }", "before_end: 45 s, valid_for: 30 s }")).isEmpty();
    String stale =
        Meadow.edit(Meadow.WALK, "before_end: 15 s }", "before_end: 45 s, valid_for: 30 s }");
    assertThat(
            Meadow.found(
                Meadow.edit(stale, ENOUGH, "rule: finish when effort > 5"),
                Meadow.WATCH,
                Meadow.EQUATIONS))
        .containsExactly("G406 \"finish when effort > 5\"");
  }

  @Test
  void aHoldMustNotLeadToAMomentWithoutReadings() {
    assertThat(wrong("hold 1 min at most", "hold 45 s at most"))
        .containsExactly("G406 \"finish when steady and heart_rate >= end...\"");
    assertThat(wrong("hold 1 min at most", "hold 2 min at most")).isEmpty();
  }

  @Test
  void anAverageNeedsAReadingInItsStretch() {
    assertThat(wrong("each: 1 min, over", "each: 2 min, over").get(0)).startsWith("G406");
    assertThat(rule("finish when average(heart_rate, 2 min) > 150 bpm")).isEmpty();
    String every2 =
        Meadow.edit(
            Meadow.edit(Meadow.WALK, "each: 1 min, over: 15 s, valid_for: 30 s", "each: 2 min"),
            "abs(change(heart_rate, 1 min)) <= steady_band",
            "average(heart_rate, 30 s) < 200 bpm");
    assertThat(Meadow.found(every2, Meadow.WATCH, Meadow.EQUATIONS))
        .isNotEmpty()
        .allMatch(problem -> problem.startsWith("G406"));
  }

  @Test
  void aRuleMustNotStayUnknown() {
    assertThat(rule("finish when mass > 100 kg"))
        .containsExactly("G405 \"finish when mass > 100 kg\"");
    assertThat(rule("finish when known(mass) and mass > 100 kg")).isEmpty();
    assertThat(wrong("needs: [age, sex]", "needs: [age, sex, mass]")).isEmpty();
    assertThat(rule("finish when previous_stage.heart_rate > 150 bpm"))
        .containsExactly("G405 \"finish when previous_stage.heart_rate > ...\"");
    assertThat(rule("finish when 100 / (heart_rate in bpm) > 1")).isEmpty();
    assertThat(rule("finish when 10 / effort > 1"))
        .containsExactly("G405 \"finish when 10 / effort > 1\"");
    assertThat(rule("finish when exercise.time > 20 min")).isEmpty();
  }

  @Test
  void whatAnEarlierRuleHasRuledOutIsNotAskedAgain() {
    assertThat(
            wrong(
                "stage_end:\n",
                """
                stage_end:
                  - rule: finish when not known(mass)
                  - rule: finish when mass > 100 kg
                """))
        .isEmpty();
    assertThat(
            wrong(
                "stage_end:\n",
                """
                stage_end:
                  - rule: offer finish when not known(mass)
                  - rule: finish when mass > 100 kg
                """))
        .containsExactly("G405 \"finish when mass > 100 kg\"");
  }

  @Test
  void whatWasDeferredIsNotAskedAgain() {
    assertThat(wrongInWatch("defer when not cleared", "defer when height > 2 m")).isEmpty();
    assertThat(rule("finish when height > 2 m"))
        .containsExactly("G405 \"finish when height > 2 m\"");
  }

  @Test
  void aWarmUpHasNoExerciseTimeYet() {
    assertThat(
            wrong(
                "id: flat, lasts: 3 min, speed: 4 km/h, grade: 0 % }",
                "id: flat, lasts: 3 min, speed: 4 km/h, grade: 0 %, warm_up: yes,"
                    + " stage_end: [finish when exercise.time > 1 min, advance] }"))
        .containsExactly("G405 \"finish when exercise.time > 1 min\"");
  }

  @Test
  void everyRuleCanHold() {
    assertThat(rule("finish when heart_rate > 300 bpm"))
        .containsExactly("G411 \"finish when heart_rate > 300 bpm\"");
    assertThat(rule("finish when stage is hill_1 and heart_rate > 150 bpm")).isEmpty();
    assertThat(wrongInWatch("effort > most_effort", "effort > 2 * most_effort"))
        .containsExactly("G411 \"finish when effort > 2 * most_effort\"");
    assertThat(wrongInWatch("resting.heart_rate > 100 bpm", "resting.heart_rate > 280 bpm"))
        .containsExactly("G411 \"defer when resting.heart_rate > 280 bpm\"");
  }

  @Test
  void beforeTheTestOnlyWhatIsAskedThereIsKnown() {
    assertThat(wrongInWatch("defer when resting.heart_rate >", "defer when heart_rate >"))
        .containsExactly("G410 \"defer when heart_rate > 100 bpm\"");
    assertThat(wrongInWatch("defer when resting.heart_rate >", "defer when upright.heart_rate >"))
        .containsExactly("G405 \"defer when upright.heart_rate > 100 bpm\"");
  }

  @Test
  void aTestGuidedByHeartRateDefersSlowedHearts() {
    assertThat(
            wrongInWatch(
                "rule: defer when lowers_heart_rate", "rule: caution when lowers_heart_rate"))
        .containsExactly("G408 \"meadow-walk\"");
    assertThat(
            wrongInWatch(
                "defer when lowers_heart_rate", "defer when lowers_heart_rate and not cleared"))
        .containsExactly("G408 \"meadow-walk\"");
    assertThat(
            wrongInWatch(
                "defer when lowers_heart_rate", "defer when lowers_heart_rate or not cleared"))
        .isEmpty();
  }

  @Test
  void everyStageSetsTheLoadsOfItsCost() {
    assertThat(wrong(", grade: 10 % }", " }")).containsExactly("G409 \"hill_2\"");
    assertThat(wrong("speed: 4 km/h, grade: 0 % }", "load: none, warm_up: yes }")).isEmpty();
  }

  @Test
  void aLoadIsKnownWhenItsStageBegins() {
    assertThat(
            wrong(
                "hill_1, lasts: 3 min, speed: 5 km/h",
                "hill_1, lasts: 3 min, speed: previous_stage.speed"))
        .isEmpty();
    assertThat(wrong("speed: 4 km/h", "speed: previous_stage.speed"))
        .containsExactly("G410 \"flat\"");
    assertThat(wrong("speed: 4 km/h", "speed: if mass > 80 kg then 3 km/h else 4 km/h"))
        .containsExactly("G410 \"flat\"");
    assertThat(wrong("speed: 4 km/h", "speed: if sex is male then 4 km/h else 3.5 km/h")).isEmpty();
  }

  @Test
  void aScaleHasOnlyWhatItsSignalCanHave() {
    assertThat(
            wrongInWatch(
                "effort_0_10: { of: effort, range: 0 to 10 }",
                "effort_0_10: { of: effort, range: 0 to 12 }"))
        .containsExactly("G305 \"effort_0_10\"");
  }
}
