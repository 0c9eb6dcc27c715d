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

  // Worked by hand: stages of 16.27 and 24.69 mL/kg/min at 112 and 136 bpm, read at 220 - 52 = 168
  // bpm.
  @Test
  void theEstimateNamesWhatItRestsOn() {
    assertThat(account)
        .contains("estimated by stages_line: 35.9 mL/kg/min")
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
