package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.protocol.MeasureLine;
import org.junit.jupiter.api.Test;

/** The times of a measure line: written out or given by a setting, and checked either way. */
class TimesOfLinesTest {

  private static String file(String settings, String line) {
    return """
        format: 1
        kind: protocol
        id: levels
        version: 1.0.0
        title: An invented walk
        ergometer: treadmill
        purpose: submaximal
        for: { age: 18 years to 65 years, needs: [age] }
        settings:
          near: { value: 40 s, source: practice }
          %s
        signals:
          heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
        before:
          rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
        measure:
          - { read: heart_rate, %s, if_missing: wait }
        stages:
          - { id: low, lasts: 2 min, speed: 3 km/h }
        stage_end:
          - { id: enough, rule: "finish" }
        unmeasured: { wait: 90 s, then: finish }
        """
        .formatted(settings, line);
  }

  private static MeasureLine line(String settings, String line) {
    return Library.of(List.of(SourceFile.of("levels.yaml", file(settings, line))))
        .protocol("levels")
        .schedule()
        .lines()
        .get(0);
  }

  // 15 s is also what a line has by default.
  @Test
  void aLateThatIsWrittenStaysWhereASettingGivesWithin() {
    MeasureLine line = line("", "each: 1 min, within: near, late: 15 s");
    assertThat(line.within()).isEqualTo(Duration.ofSeconds(40));
    assertThat(line.late()).isEqualTo(Duration.ofSeconds(15));
    assertThat(line("", "each: 1 min, within: near").late()).isEqualTo(Duration.ofSeconds(40));
    assertThat(line("", "each: 1 min").late()).isEqualTo(Duration.ofSeconds(15));
  }

  @Test
  void aTimeThatASettingGivesHasToFitAsOneThatIsWritten() {
    String hour = "long: { value: 60 min, source: practice }";
    refused("", "each: 1 min, over: 60 min", "60 min is not within the time before it is due");
    refused(hour, "each: 1 min, over: long", "long is not within the time before it is due");
    refused(hour, "each: 1 min, takes: long", "give the setting a shorter time");
    refused(hour, "before_end: 10 s, takes: long", "long is not within the time before the end");
    refused(hour, "each: 1 min, valid_for: long", "within the time to the next reading");
    assertThat(line("", "each: 1 min, over: near").over()).isEqualTo(Duration.ofSeconds(40));
  }

  private static void refused(String settings, String line, String words) {
    assertThatThrownBy(() -> line(settings, line))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining(words);
  }
}
