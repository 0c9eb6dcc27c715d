package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/**
 * Rules that count stages, ask for stages and read tables. The protocol and the people are
 * invented.
 */
class CountedStagesTest {

  private static final String STEPS =
      """
      format: 1
      kind: protocol
      id: counted-steps
      version: 1.0.0
      title: Steps that end after two in the window
      ergometer: leg-cycle
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, source: practice }
      tables:
        factor:
          of: age
          gives: number
          points: [[20 years, 1.2], [40 years, 1.0], [60 years, 0.7]]
          source: practice
      define:
        in_window: heart_rate between 110 bpm and 150 bpm
      before:
        rules:
          - defer when lowers_heart_rate
      measure:
        - { read: heart_rate, each: 1 min, if_missing: wait }
      stages:
        - { id: easy, lasts: 2 min, power: 25 W, warm_up: yes }
        - { id: one, lasts: 2 min, power: 50 W }
        - { id: two, lasts: 2 min, power: 75 W }
        - { id: three, lasts: 2 min, power: 100 W }
      stage_end:
        - finish when count(in_window) >= 2
        - advance
      estimates:
        - id: by_age
          from: last in_window stage
          only_when: completed(two)
          vo2max: (30 * lookup(factor, age)) as mL/kg/min
      """;

  private static Session begun(int age) {
    Library library = Library.of(List.of(SourceFile.of("counted-steps.yaml", STEPS)));
    Person person = Person.builder().age(age).lowersHeartRate(false).build();
    Session session = Session.open(library.protocol("counted-steps"), person);
    session.follow(session.decide(Duration.ZERO));
    return session;
  }

  private static Decision stage(Session session, String minute, String end, double rate) {
    session.record(at(minute), heartRate(rate - 1));
    Decision decision = session.record(at(end), heartRate(rate));
    session.follow(decision);
    return decision;
  }

  @Test
  void theSecondStageInTheWindowEndsTheTestAndTheWarmUpDoesNotCount() {
    Session session = begun(30);
    assertThat(stage(session, "1:00", "2:00", 115).verdict().word()).isEqualTo("ADVANCE");
    assertThat(stage(session, "3:00", "4:00", 120).verdict().word()).isEqualTo("ADVANCE");
    Decision last = stage(session, "5:00", "6:00", 135);
    assertThat(last.verdict().word()).isEqualTo("FINISH");
    assertThat(last.because().orElseThrow().filled().orElseThrow().text())
        .isEqualTo("count(in_window) [2] >= 2");
    // Worked by hand: half way between 1.2 at 20 and 1.0 at 40 years, times 30.
    Estimate.Available estimate = Capacity.of(session.outcome()).headline().orElseThrow();
    assertThat(estimate.vo2max()).hasToString("33 mL/kg/min");
  }

  @Test
  void aCountNearTheEdgeOfTheWindowIsMarginal() {
    Session session = begun(30);
    stage(session, "1:00", "2:00", 100);
    session.record(at("3:00"), org.gradus.session.Readings.pulse(27, Duration.ofSeconds(15)));
    Decision first =
        session.record(at("4:00"), org.gradus.session.Readings.pulse(27, Duration.ofSeconds(15)));
    assertThat(first.verdict().word()).isEqualTo("ADVANCE");
    session.follow(first);
    session.record(at("5:00"), heartRate(120));
    Decision second = session.record(at("6:00"), heartRate(121));
    assertThat(second.verdict().word()).isEqualTo("ADVANCE");
    assertThat(second.firmness().couldFlip()).contains("count(in_window) >= 2");
  }

  @Test
  void outsideTheTableThereIsNoEstimate() {
    Session session = begun(65);
    stage(session, "1:00", "2:00", 100);
    stage(session, "3:00", "4:00", 120);
    stage(session, "5:00", "6:00", 121);
    Estimate estimate = Capacity.of(session.outcome()).estimate("by_age").orElseThrow();
    assertThat(((Estimate.Unavailable) estimate).reasons())
        .containsExactly("lookup(factor, age): outside the table");
  }

  @Test
  void rowsThatDoNotAscendAreRefused() {
    String wrong = STEPS.replace("[40 years, 1.0]", "[70 years, 1.0]");
    FileRefused refused =
        catchThrowableOfType(
            FileRefused.class,
            () -> Library.of(List.of(SourceFile.of("counted-steps.yaml", wrong))));
    assertThat(refused.diagnostics()).hasSize(1);
    assertThat(refused).hasMessageContaining("is not a row that goes on upwards");
  }

  // 7 MET at 75 m/min is a grade of 10 %, the inverse of a published exercise (SIUE practice key).
  @Test
  void aLoadIsWorkedOutFromTheUptakeItIsToCost() {
    String ramp =
        """
        format: 1
        kind: protocol
        id: solved-walk
        version: 1.0.0
        title: One stage whose grade is worked out
        ergometer: treadmill
        purpose: submaximal
        for: { age: 18 years to 65 years, needs: [age] }
        inputs:
          expected: { kind: uptake, ask: Expected capacity, range: 10 mL/kg/min to 70 mL/kg/min }
        before:
          rules:
            - defer when expected > 60 mL/kg/min
        stages:
          - { id: walk, lasts: 3 min, speed: 75 m/min, grade: "load_for(walking, grade, expected)" }
        cost: walking
        stage_end:
          - advance
        """;
    List<SourceFile> files = new java.util.ArrayList<>(Bundled.files());
    files.add(SourceFile.of("solved-walk.yaml", ramp));
    Person person = Person.builder().age(30).build();
    Session session = Session.open(Library.of(files).protocol("solved-walk"), person);
    Decision ready =
        session.record(
            at("0:00"),
            org.gradus.session.Readings.answer(
                "expected", org.gradus.unit.Quantity.of(7, org.gradus.unit.Unit.MET)));
    assertThat(ready.verdict().toString()).startsWith("READY: begin walk at 75 m/min, 10");
    assertThat(((org.gradus.session.Verdict.Ready) ready.verdict()).loads().get(1).value().amount())
        .isEqualTo(10, org.assertj.core.api.Assertions.within(0.01));
  }
}
