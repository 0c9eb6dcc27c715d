package org.gradus.examples.quickstart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;

class QuickstartTest {

  private final String account = Quickstart.play(RecordedTest.read(Path.of("recorded-test.yaml")));

  @Test
  void theRecordedTestShowsAHoldAnAdvanceAndAFinish() {
    assertThat(account)
        .containsSubsequence(
            "READY: begin walk_1 at 1.7 mph, 10 %",
            "HOLD until 4:00", "ADVANCE to walk_2 at 2.5 mph, 12 %", "FINISH", "END");
  }

  @Test
  void itSaysWhatIsMarginalAndWhatWasNotChecked() {
    assertThat(account)
        .contains("marginal  the count is too coarse")
        .contains("unchecked systolic-high, diastolic-high, systolic-falls");
  }

  // Stages of 16.27 and 24.69 mL/kg/min at 112 and 136 bpm, and 66 bpm at rest, read at 220 - 52 =
  // 168 bpm: the line through the stages worked by hand, the one through rest by a script.
  @Test
  void theEstimateNamesWhatItRestsOn() {
    assertThat(account)
        .contains("estimated by through_rest: 34.7 mL/kg/min")
        .contains("It assumes: Heart rate and uptake rise together on one straight line from rest")
        .contains("anchor of the line: 66 bpm; resting.heart_rate at 3.5 mL/kg/min")
        .contains("Also, by stages_line: 35.9 mL/kg/min")
        .contains("stage walk_2: 2.5 mph, 12 %, heart rate 136 bpm; walking: 24.69 mL/kg/min")
        .contains("max_heart_rate: 168 bpm; 220 - age")
        .contains("] American College of Sports Medicine metabolic equations;")
        .contains("] Fox SM et al. 1971;")
        .doesNotContain("no source named");
  }

  @Test
  void aSlipInTheRecordingIsNamed() {
    assertThatThrownBy(() -> RecordedTest.of("protocol: x\nperson: { age: 3 }\nevents: []"))
        .hasMessageContaining("the recording has no sex");
  }
}
