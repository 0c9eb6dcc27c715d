package org.gradus.examples.wholetest;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class WholeTestTest {

  @Test
  void everythingHappensInItsOrder() {
    assertThat(WholeTest.play())
        .containsSubsequence(
            "DEFER: high-systolic",
            "ends OVER, deferred",
            "READY: begin walk_1 at 1.7 mph, 10 %",
            "it was 24: amended",
            "HOLD until 4:00",
            "marginal: abs(change(heart_rate, 1 min)) <= steady_band",
            "typed at 3:25",
            "ADVANCE to walk_2 at 2.5 mph, 12 %",
            "MEASURE systolic, waiting until 7:50",
            "cuff again, 186/88\n      -> CONTINUE until 7:00",
            "overridden: one more minute",
            "FINISH",
            "STOP: Take the load away",
            "refused, G602: ADVANCE to walk_3 is not possible after a stop",
            "END",
            "run again they are answered exactly as recorded.");
  }

  // Worked by hand: 24.69 mL/kg/min at 128 bpm, read at 220 - 58 = 162 bpm: 24.69 x (162 - 61) /
  // (128 - 61).
  @Test
  void theEstimateIsThatOfTheStageBeforeTheStop() {
    assertThat(WholeTest.play()).contains("single_stage: 37.2 mL/kg/min");
  }

  // Worked by hand: 3.5 + (24.69 - 3.5) x (162 - 68) / (128 - 68) = 36.70.
  @Test
  void theReportOfTheSecondDayShowsResultStopAndPlan() {
    assertThat(WholeTest.report().text().replaceAll("\\s+", " "))
        .contains("36.7 mL/kg/min (10.5 MET), 95 % interval ")
        .contains("! The exercise ended at 8:20, 4:20 into walk_2, with STOP for light headed")
        .contains("reported: light headed")
        .contains("put right: heart rate 136 bpm is heart rate 96 bpm; why: misheard")
        .contains("HOLD until 8:00 – the tester's own decision")
        .contains("The person recovered.")
        .contains("- moderate; share of the reserve: 40 to 59 %; heart rate: 106 to 123 bpm");
    assertThat(WholeTest.report().html()).contains("<bdi>Invented person, second day</bdi>");
  }
}
