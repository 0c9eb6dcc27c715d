package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import org.gradus.rule.answer.Diagram;
import org.junit.jupiter.api.Test;

/** The value of every part stands under it. Every picture here was drawn by hand first. */
class DiagramTest {

  private static String drawn(Bench bench, String condition) {
    return bench.condition(condition).diagram(bench.frame(), 180).toString();
  }

  @Test
  void wholesStandUnderTheirParts() {
    Bench bench = new Bench().read("heart_rate", 138).read("rpe", 12);
    assertThat(drawn(bench, "heart_rate > 135 bpm and rpe >= 13"))
        .isEqualTo(
            """
            heart_rate > 135 bpm and rpe >= 13
            ----------               ---
            138 bpm                  12
            --------------------     ---------
            yes                      no
            ----------------------------------
            no""");
  }

  @Test
  void aReadingShowsItsAgeAndWhatIsMissingSaysWhy() {
    Bench bench = new Bench().read("heart_rate", 138).taken("heart_rate", 168);
    assertThat(drawn(bench, "heart_rate > 135 bpm or systolic > 250 mmHg"))
        .isEqualTo(
            """
            heart_rate > 135 bpm or systolic > 250 mmHg
            ----------              --------
            138 bpm                 unknown
            12 s old                never taken
            --------------------    -------------------
            yes                     unknown
            -------------------------------------------
            yes""");
    assertThat(drawn(bench.taken("heart_rate", 90), "heart_rate > 135 bpm"))
        .contains("\n1:30 old\n");
  }

  @Test
  void aRuleIsShownWithItsActionAndTheDefinitionsItUses() {
    Bench bench =
        new Bench()
            .define("hard", "rpe > 15")
            .choose("limit", "high: 150 bpm if gait is running", "low: 130 bpm")
            .read("rpe", 16)
            .read("gait", 0)
            .read("heart_rate", 128);
    Diagram diagram =
        bench.rule("finish when hard\n      or heart_rate > limit").diagram(bench.frame(), 0);
    assertThat(diagram.toString())
        .isEqualTo(
            """
            finish when hard or heart_rate > limit
                        ----    ----------   -----
                        yes     128 bpm      130 bpm
                                ------------------
                                no
                        --------------------------
                        yes

            hard is
              rpe > 15
              ---
              16
              --------
              yes

            limit, by low, is
              130 bpm""");
  }

  @Test
  void aRuleWithoutAConditionIsJustItsText() {
    assertThat(new Bench().rule("advance").diagram(new Bench().frame(), 0).toString())
        .isEqualTo("advance");
  }

  @Test
  void wordsThatAreLongerThanTheirPartMakeRoomForEachOther() {
    Bench bench = new Bench().read("age", 41).read("mass", 70.5);
    assertThat(drawn(bench, "age > 40 years and mass > 70 kg"))
        .isEqualTo(
            """
            age > 40 years and mass > 70 kg
            ---                ----
            41 years           70.5 kg
            --------------     ------------
            yes                yes
            -------------------------------
            yes""");
    Bench close = new Bench().read("rpe", 3).read("grade", 0.1);
    assertThat(drawn(close, "rpe+grade>1"))
        .isEqualTo(
            """
            rpe+grade>1
            --- -----
            3   0.1
            ---------
            3.1
            -----------
            yes""");
    assertThat(drawn(new Bench().read("rpe", 3), "rpe+grade>1"))
        .isEqualTo(
            """
            rpe+grade>1
            --- -----
            3   unknown
                never taken
            ---------
            unknown
            -----------
            unknown""");
    Bench narrow = new Bench().define("a", "123456.25").define("b", "2");
    assertThat(drawn(narrow, "a<b"))
        .startsWith(
            """
            a<b
            -
            123456
              -
              2
            ---
            no
            """);
  }

  @Test
  void aLookupShowsWhereTheTableIsRead() {
    Bench bench = new Bench().read("age", 35);
    assertThat(drawn(bench, "lookup(age_factor, age) < 0.9"))
        .isEqualTo(
            """
            lookup(age_factor, age) < 0.9
                               ---
                               35 years
            -----------------------
            0.87
            -----------------------------
            yes""");
  }

  @Test
  void aSettingThatIsAWordShowsItsWord() {
    assertThat(drawn(new Bench().read("rpe", 12), "end_rule is two_in_window or rpe > 13"))
        .isEqualTo(
            """
            end_rule is two_in_window or rpe > 13
            --------                     ---
            near_ceiling                 12
            -------------------------    --------
            no                           no
            -------------------------------------
            no""");
  }
}
