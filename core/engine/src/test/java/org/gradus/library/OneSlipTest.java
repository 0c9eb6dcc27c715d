package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.library.Meadow.found;
import static org.gradus.library.Meadow.wrong;
import static org.gradus.library.Meadow.wrongInEquations;
import static org.gradus.library.Meadow.wrongInWatch;

import org.junit.jupiter.api.Test;

/** One slip gives one message, at the place that is to be changed. */
class OneSlipTest {

  @Test
  void theLibraryLoadsAsItIs() {
    assertThat(found(Meadow.WALK, Meadow.WATCH, Meadow.EQUATIONS)).isEmpty();
  }

  @Test
  void aWrongIncludeDoesNotReportWhatItWouldHaveBrought() {
    assertThat(wrong("include: [watch]", "include: [wotch]")).containsExactly("G309 \"wotch\"");
  }

  @Test
  void anIncludeThatStandsTwiceIsReportedOnce() {
    assertThat(wrong("include: [watch]", "include: [watch, watch]"))
        .containsExactly("G306 \"watch\"");
  }

  @Test
  void aSettingThatCannotBeReadIsNotReportedWhereItIsUsed() {
    assertThat(wrong("value: 5 bpm", "value: 5 bmp")).containsExactly("G202 \"bmp\"");
    assertThat(wrong("steady_band: {", "steady band: {")).contains("G305 \"steady band\"");
  }

  @Test
  void aDefinitionThatDoesNotParseIsNotReportedWhereItIsUsed() {
    assertThat(wrong("<= steady_band", "<= <= steady_band")).containsExactly("G101 \"<=\"");
  }

  @Test
  void aSignalOfAWrongKindIsNotReportedWhereItIsRead() {
    assertThat(wrongInWatch("kind: heart_rate", "kind: hart_rate"))
        .containsExactly("G305 \"hart_rate\"");
    assertThat(wrongInWatch("step: 1 bpm", "step: 1 mmHg")).containsExactly("G305 \"1 mmHg\"");
  }

  @Test
  void aRuleThatDoesNotParseMayHaveClosedTheList() {
    assertThat(wrong("rule: advance,", "rule: advanse,")).containsExactly("G101 \"advanse\"");
  }

  @Test
  void aDeferThatDoesNotParseMayHaveBeenForSlowedHearts() {
    assertThat(wrongInWatch("defer when lowers_heart_rate", "defer wen lowers_heart_rate"))
        .containsExactly("G101 \"wen\"");
  }

  @Test
  void aMisspeltKeyIsNotAlsoMissing() {
    assertThat(wrong("ergometer:", "ergomter:")).containsExactly("G302 \"ergomter\"");
    assertThat(wrong("stages:\n", "stges:\n")).containsExactly("G302 \"stges\"");
    assertThat(wrong("settings:", "setings:")).containsExactly("G302 \"setings\"");
    assertThat(wrong("for: {", "fore: {")).containsExactly("G302 \"fore\"");
    assertThat(wrong("kind: protocol", "knd: protocol")).containsExactly("G302 \"knd\"");
    assertThat(wrong("stage_end:", "stage_ends:")).containsExactly("G302 \"stage_ends\"");
    assertThat(wrong("sources:", "souces:")).containsExactly("G302 \"souces\"");
  }

  @Test
  void aKindThatDoesNotExistDoesNotReportEveryKeyOfTheFile() {
    assertThat(wrong("kind: protocol", "kind: protocl")).containsExactly("G305 \"protocl\"");
    assertThat(wrongInWatch("kind: rules", "kind: rule")).containsExactly("G305 \"rule\"");
    assertThat(wrongInEquations("kind: equations", "kind: equation"))
        .containsExactly("G305 \"equation\"");
  }

  @Test
  void aFileThatIsNotYamlDoesNotReportWhatRestsOnIt() {
    assertThat(wrongInWatch("signals:", "signals: [")).hasSize(1);
    assertThat(wrongInEquations("costs:", "costs: {")).hasSize(1);
  }

  @Test
  void aStageWhoseTimeIsWrongStillExists() {
    assertThat(wrong("hill_1, lasts: 3 min", "hill_1, lasts: 3 mon"))
        .containsExactly("G202 \"mon\"");
  }

  @Test
  void anEquationIsCheckedInItsOwnFileOnly() {
    assertThat(wrongInEquations("0.8 * (age in years)", "0.8 * (aage in years)"))
        .containsExactly("G201 \"aage\"");
    assertThat(wrongInEquations("sd: 8 %\n    source: book", "sd: 8 %\n    source: bok"))
        .containsExactly("G309 \"bok\"");
    assertThat(wrongInEquations("sd: 11 bpm\n    source: book", "sd: 11 bpm"))
        .containsExactly("G303 \"id\"");
    assertThat(wrongInEquations("of: [speed, grade]", "of: [speed]"))
        .containsExactly("G305 \"speed\"");
    assertThat(wrongInEquations("sd: 11 bpm", "sd: 11 mmHg")).containsExactly("G305 \"11 mmHg\"");
  }

  @Test
  void aFaultInSeveralStagesIsSaidOnce() {
    assertThat(wrong("heart_rate >= end_at", "effort > 3 and mass > 60 kg"))
        .containsExactly("G405 \"finish when steady and effort > 3 and ma...\"");
  }

  @Test
  void aNameThatIsMissingIsReportedOnceWithItsPlaces() {
    assertThat(wrong("  steady: abs", "  stedy: abs")).containsExactly("G201 \"steady\"");
    assertThat(wrong("{ read: heart_rate, each", "{ read: hart_rate, each"))
        .containsExactly("G309 \"hart_rate\"");
    assertThat(wrong("  book: An", "  bok: An")).containsExactly("G309 \"book\"");
  }

  @Test
  void severalSlipsAreAllReported() {
    String walk = Meadow.edit(Meadow.WALK, "<= steady_band", "<= stedy_band");
    walk = Meadow.edit(walk, "grade: 5 %", "grade: 5");
    walk = Meadow.edit(walk, "cost: strolling", "cost: running");
    String watch = Meadow.edit(Meadow.WATCH, "stop when dizzy", "stop when dizy");
    String equations = Meadow.edit(Meadow.EQUATIONS, "version: 1.0.0", "version: 1");
    assertThat(found(walk, watch, equations))
        .containsExactly(
            "G305 \"1\"", "G201 \"stedy_band\"", "G305 \"5\"", "G309 \"running\"", "G201 \"dizy\"");
  }
}
