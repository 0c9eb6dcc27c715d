package org.gradus.examples.benchmarks;

import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;

import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Session;

/** An invented test of 20 stages of 3 minutes, with readings every minute. */
final class LongTest {

  static final Protocol PROTOCOL =
      Library.of(List.of(SourceFile.of("long-test.yaml", text()))).protocol("long-test");

  private LongTest() {}

  private static String text() {
    StringBuilder stages = new StringBuilder();
    for (int i = 1; i <= 20; i++) {
      stages.append("  - { id: step_%d, lasts: 3 min, power: %d W }%n".formatted(i, 20 + 5 * i));
    }
    return """
        format: 1
        kind: protocol
        id: long-test
        version: 1.0.0
        title: Many short steps
        ergometer: leg-cycle
        purpose: submaximal
        for: { age: 18 years to 65 years, needs: [age] }
        signals:
          heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm, source: practice }
          systolic: { kind: pressure, range: 40 mmHg to 320 mmHg, step: 2 mmHg, source: practice }
          diastolic: { kind: pressure, range: 20 mmHg to 200 mmHg, step: 2 mmHg, source: practice }
          rpe: { kind: number, range: 0 to 20, source: practice }
        scales:
          rpe_6_20: { of: rpe, range: 6 to 20, step: 1, source: practice }
        define:
          steady: abs(change(heart_rate, 1 min)) <= 5 bpm
        before:
          rules:
            - defer when lowers_heart_rate
        measure:
          - { read: heart_rate, each: 1 min, if_missing: wait }
          - { read: [systolic, diastolic], before_end: 45 s, takes: 40 s, late: 90 s, if_missing: go_on }
          - { read: rpe, scale: rpe_6_20, before_end: 15 s, if_missing: go_on }
        stages:
        %s
        any_time:
          - stop when systolic > 250 mmHg
          - stop when diastolic > 115 mmHg
          - finish when heart_rate > 160 bpm
          - finish when rpe > 17
        stage_end:
          - finish when count(steady) >= 18
          - finish when steady and heart_rate >= 150 bpm
          - hold 1 min at most 2 times when not steady
          - advance
        """
        .formatted(stages.toString().stripTrailing());
  }

  /** A session in which every stage went well up to this minute, which has been told too. */
  static Session until(int minute) {
    Person person = Person.builder().age(40).lowersHeartRate(false).build();
    Session session = Session.open(PROTOCOL, person);
    session.follow(session.decide(Duration.ZERO));
    for (int i = 1; i <= minute; i++) {
      Duration now = Duration.ofMinutes(i);
      if (i % 3 == 0) {
        session.recordTaken(now.minusSeconds(20), now.minusSeconds(30), pressure(120 + i, 78));
        session.record(now.minusSeconds(10), rating(11, "rpe_6_20"));
      }
      Decision decision = session.record(now, heartRate(95 + i));
      if (i % 3 == 0 && i < minute) {
        session.follow(decision);
      }
    }
    return session;
  }
}
