package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/** A late question where a reading is due each second over many hours: it took 90 seconds. */
class LongWaitTest {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: vigil
      version: 1.0.0
      title: An invented walk that waits for most of a day
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      define:
        calm: highest(heart_rate) - lowest(heart_rate) <= 5 bpm and average(heart_rate, 20 min) > 50 bpm
      measure: [{ read: heart_rate, each: 1 s, if_missing: wait }]
      stages: [{ id: walk, lasts: 30 min, speed: 3 km/h }]
      stage_end:
        - { id: calm, rule: finish when calm }
        - { id: longer, rule: hold 1 min at most 2 times when not calm }
        - { id: next, rule: advance }
      unmeasured: { wait: 22 h, then: finish }
      """;

  @Test
  void aLateQuestionIsAnswered() {
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("vigil.yaml", FILE))).protocol("vigil"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    Decision waits = session.decide(at("30:00"));
    assertThat(waits.verdict()).isInstanceOf(Verdict.Measure.class);
    Decision late = session.decide(Duration.ofHours(23));
    assertThat(late.verdict()).isInstanceOf(Verdict.Finish.class);
    assertThat(late.because().orElseThrow().rule()).isEqualTo("undecided");
  }
}
