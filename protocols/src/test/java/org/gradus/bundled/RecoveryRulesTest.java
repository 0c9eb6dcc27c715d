package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rules of recovery look at readings and loads of recovery, or are refused with their file. */
class RecoveryRulesTest {

  private static String rule(String condition, String id) {
    return "{ rule: \"" + condition + "\", id: " + id + ", source: own }";
  }

  /** In recovery since 2:10. */
  private static Session recovering(String... rules) {
    Session session = new InventedWalk().recovery(rules).begun();
    session.record(at("1:00"), heartRate(150));
    session.record(at("2:00"), heartRate(160));
    session.override(at("2:10"), new Verdict.Finish(), "enough");
    return session;
  }

  private static List<String> faults(String... rules) {
    return new InventedWalk().recovery(rules).faults();
  }

  @Test
  void aChangeComparesTwoReadingsOfRecovery() {
    Session session =
        recovering(rule("end when abs(change(heart_rate, 1 min)) <= 5 bpm", "calm-again"));
    // The last pulse of the walk is no reading of recovery.
    assertThat(session.record(at("3:10"), heartRate(158)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    assertThat(session.record(at("4:10"), heartRate(130)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    Decision end = session.record(at("5:12"), heartRate(127));
    assertThat(end.verdict()).isInstanceOf(Verdict.End.class);
    assertThat(end.because().orElseThrow().filled().orElseThrow().text()).contains("3 bpm");
  }

  @Test
  void aDefinitionOfTheStagesWorksThereToo() {
    Session session = recovering(rule("end when calm and heart_rate < 140 bpm", "calm-again"));
    session.record(at("3:10"), heartRate(131));
    assertThat(session.record(at("4:10"), heartRate(130)).verdict())
        .isInstanceOf(Verdict.End.class);
  }

  @Test
  void whatWasReadEarlierInRecoveryStops() {
    Session session =
        recovering(
            rule("end when heart_rate < 100 bpm", "slow"),
            rule("stop when earlier(heart_rate, 1 min) > 150 bpm", "still-high"));
    assertThat(session.record(at("3:10"), heartRate(155)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    Decision stop = session.record(at("4:10"), heartRate(120));
    assertThat(stop.verdict()).isInstanceOf(Verdict.Stop.class);
    assertThat(stop.because().orElseThrow().rule()).isEqualTo("still-high");
  }

  @Test
  void averagesAndExtremesAreOfRecovery() {
    Session session =
        recovering(
            rule("end when average(heart_rate, 2 min) < 110 bpm", "slow"),
            rule("stop when highest(heart_rate) > 170 bpm", "high"));
    session.record(at("3:10"), heartRate(120));
    assertThat(session.record(at("4:10"), heartRate(104)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    assertThat(session.record(at("5:10"), heartRate(106)).verdict())
        .isInstanceOf(Verdict.End.class);
    assertThat(session.record(at("6:10"), heartRate(172)).verdict())
        .isInstanceOf(Verdict.Stop.class);
  }

  @Test
  void stagesAreCountedWithTheLastOne() {
    Session session =
        new InventedWalk().recovery(rule("end when count(calm) >= 1", "counted")).begun();
    session.record(at("1:00"), heartRate(100));
    session.record(at("2:00"), heartRate(100));
    session.record(at("3:00"), heartRate(101));
    session.override(at("3:00"), new Verdict.Finish(), "enough");
    assertThat(session.decide(at("3:00")).verdict()).isInstanceOf(Verdict.End.class);
  }

  @Test
  void theLoadIsThatOfRecovery() {
    Session session =
        recovering(rule("end when speed <= 2 km/h and recovery.time >= 1 min", "slow-walk"));
    assertThat(session.decide(at("3:09")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.decide(at("3:10")).verdict()).isInstanceOf(Verdict.End.class);
    // From 4:10 on nothing is set.
    assertThat(session.decide(at("4:10")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.diagram(at("4:10"), "slow-walk").toString()).contains("none in this case");
  }

  @Test
  void aLoadThatRecoveryNeverSetsIsRefused() {
    assertThat(faults(rule("end when power < 20 W", "low")))
        .containsExactly("G410 \"end when power < 20 W\" power is not known in recovery");
  }

  @ParameterizedTest
  @CsvSource({
    "end when stage.time >= 2 min, stage.time",
    "end when stage.number >= 2, stage.number",
    "stop when stage is step_1 and heart_rate > 100 bpm, stage",
    "end when not (stage.time < 2 min), stage.time"
  })
  void aStageOfTheExerciseIsNotKnownThere(String condition, String name) {
    assertThat(faults(rule(condition, "late")))
        .contains("G410 \"" + condition + "\" " + name + " is not known in recovery");
  }

  // The clock of the last stage ran on, and stopped whoever sat and recovered.
  @Test
  void aClockOfTheLastStageDoesNotRunOn() {
    Session session =
        new InventedWalk()
            .anyTime(rule("stop when stage.time between 4 min and 5 min", "too-long"))
            .begun();
    session.record(at("1:00"), heartRate(150));
    session.override(at("2:10"), new Verdict.Finish(), "enough");
    for (String moment : List.of("2:11", "4:00", "4:30", "5:01", "8:00")) {
      assertThat(session.decide(at(moment)).verdict())
          .as(moment)
          .isInstanceOf(Verdict.Continue.class);
    }
  }

  @Test
  void aLookBackThatRecoveryNeverFillsIsRefused() {
    assertThat(faults(rule("end when change(heart_rate, 90 s) < 5 bpm", "calm-again")))
        .containsExactly(
            "G406 \"end when change(heart_rate, 90 s) < 5 bpm\" heart_rate 90 s earlier is not"
                + " measured in recovery before this rule is evaluated");
    assertThat(faults(rule("end when change(heart_rate, 10 min) < 5 bpm", "calm-again")))
        .hasSize(1);
    assertThat(faults(rule("end when change(heart_rate, 9 min) < 5 bpm", "calm-again"))).isEmpty();
  }

  @Test
  void aRuleThatCannotApplyInRecoveryIsRefused() {
    assertThat(faults(rule("end when recovery.time >= 11 min", "late")))
        .containsExactly("G411 \"end when recovery.time >= 11 min\" this rule can never apply");
    assertThat(faults(rule("end when speed > 4 km/h", "fast")))
        .containsExactly("G411 \"end when speed > 4 km/h\" this rule can never apply");
  }

  @Test
  void whatIsToBeReadIsListedOnceAndUntilItIsRead() {
    Session session =
        new InventedWalk()
            .with(
                "    - { read: heart_rate, each: 1 min, over: 15 s }",
                "    - { read: heart_rate, each: 1 min, over: 15 s }\n"
                    + "    - { read: heart_rate, at: 1 min, over: 15 s, as: one_minute_rate }")
            .begun();
    session.record(at("1:00"), heartRate(150));
    session.override(at("2:10"), new Verdict.Finish(), "enough");
    assertThat(dueAt(session, "2:30", "3:10")).hasSize(1);
    // Due now, and to be read for a little while yet.
    assertThat(dueAt(session, "3:12", "3:10")).hasSize(1);
    session.record(at("3:12"), heartRate(140));
    assertThat(dueAt(session, "3:12", "3:10")).isEmpty();
  }

  private static List<Agenda.Item> dueAt(Session session, String now, String due) {
    Duration when = at(due);
    return session.decide(at(now)).agenda().items().stream()
        .filter(item -> item.due().equals(when))
        .toList();
  }
}
