package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.report.StageRow;
import org.gradus.session.Decision;
import org.gradus.session.Outcome;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A saturation of 90 % is shown as it was read. */
class SaturationTest {

  private static final String READ =
      "  - { read: saturation, before_end: 20 s, if_missing: go_on, as: lowest_saturation }\n";

  private static Protocol walk() {
    List<SourceFile> files =
        Bundled.files().stream()
            .map(
                file ->
                    file.name().endsWith("graded-walk-standard.yaml")
                        ? SourceFile.of(file.name(), withSaturation(file.text()))
                        : file)
            .toList();
    return Library.of(files).protocol("graded-walk-standard");
  }

  private static String withSaturation(String text) {
    return text.replace(
            "max_heart_rate:\n",
            """
            signals:
              saturation:
                kind: number
                range: 50 % to 100 %
                step: 1 %
                source: practice
            any_time:
              - rule: caution when saturation < 80 %
                id: low-saturation
                source: practice
            max_heart_rate:
            """)
        .replace("  - read: rpe\n", READ + "  - read: rpe\n");
  }

  @Test
  void inReportsAndAmongTheReadings() {
    Session session = Walks.ready(walk(), Walks.ines());
    session.follow(session.decide(at("0:00")));
    session.record(at("2:00"), heartRate(112));
    session.record(at("2:40"), measured("saturation", Quantity.of(90, Unit.PERCENT)));
    session.record(at("3:00"), heartRate(112));
    session.override(at("3:00"), new Verdict.Finish(), "enough");
    Outcome outcome = session.outcome();
    Capacity capacity = Capacity.of(outcome);
    StageRow row = StageRow.of(outcome, capacity).get(0);
    assertThat(row.reading("saturation").orElseThrow()).hasToString("90 %");
    assertThat(capacity.facts().reading("lowest_saturation").orElseThrow()).hasToString("90 %");
  }

  @Test
  void inFilledInRules() {
    Session session = Walks.ready(walk(), Walks.ines());
    session.follow(session.decide(at("0:00")));
    session.record(at("2:40"), measured("saturation", Quantity.of(78, Unit.PERCENT)));
    Decision low = session.decide(at("2:41"));
    assertThat(low.cautions().get(0).filled().orElseThrow().text())
        .isEqualTo("saturation [78 %] < 80 %");
    assertThat(session.diagram(at("2:41"), "low-saturation").toString())
        .contains("78 %")
        .doesNotContain("0.78");
  }
}
