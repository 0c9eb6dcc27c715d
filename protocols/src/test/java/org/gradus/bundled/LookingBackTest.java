package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Times.at;

import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/**
 * A look back compares two readings, and a decision waits only for readings that can still be
 * taken.
 */
class LookingBackTest {

  private static final String CALM_NOW =
      "{ rule: \"finish when abs(change(heart_rate, 1 min)) <= 5 bpm\", id: calm-now, source: own }";

  @Test
  void aChangeOfOneReadingIsNoChange() {
    Session session = new InventedWalk().anyTime(CALM_NOW).begun();
    session.record(at("1:00"), heartRate(100));
    session.record(at("2:00"), heartRate(130));
    // Nothing is read at 3:00: the change is still that of 2:00.
    assertThat(session.decide(at("2:59")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.decide(at("3:00")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(session.diagram(at("3:00"), "calm-now").toString()).contains("30 bpm");
  }

  @Test
  void aChangeIsKnownOnceTwoReadingsAreThere() {
    Session session = new InventedWalk().anyTime(CALM_NOW).begun();
    Decision first = session.record(at("1:00"), heartRate(100));
    assertThat(first.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.diagram(at("1:00"), "calm-now").toString())
        .contains("no earlier reading to compare with");
    // Told a few seconds early, it counts for 2:00.
    Decision second = session.record(at("1:55"), heartRate(103));
    assertThat(second.verdict()).isInstanceOf(Verdict.Finish.class);
    assertThat(second.because().orElseThrow().rule()).isEqualTo("calm-now");
  }

  @Test
  void aReadingThatCountsForNoDueTimeIsComparedWithNothing() {
    Session session = new InventedWalk().anyTime(CALM_NOW).begun();
    session.record(at("1:00"), heartRate(100));
    Decision between = session.record(at("1:30"), heartRate(100));
    assertThat(between.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.diagram(at("1:30"), "calm-now").toString())
        .contains("no earlier reading to compare with");
  }

  @Test
  void aLookBackThatNoReadingsCanFillIsRefused() {
    assertThat(
            new InventedWalk()
                .anyTime(
                    "{ rule: \"stop when change(heart_rate, 40 s) > 15 bpm\", id: jump, source: own }")
                .faults())
        .containsExactly(
            "G406 \"stop when change(heart_rate, 40 s) > 15 bpm\" heart_rate 40 s earlier is not"
                + " measured in any stage before this rule is evaluated");
    // Three minutes, two holds and the wait leave no two readings six minutes apart.
    assertThat(
            new InventedWalk()
                .anyTime(
                    "{ rule: \"stop when change(heart_rate, 6 min) > 15 bpm\", id: jump, source: own }")
                .faults())
        .hasSize(1);
    assertThat(
            new InventedWalk()
                .anyTime(
                    "{ rule: \"stop when change(heart_rate, 5 min) > 15 bpm\", id: jump, source: own }")
                .faults())
        .isEmpty();
    assertThat(
            new InventedWalk()
                .anyTime(
                    "{ rule: \"stop when change(systolic, 1 min) > 15 mmHg\", id: jump, source: own }")
                .faults())
        .hasSize(1);
  }

  @Test
  void whatNothingCanAnswerIsNotWaitedFor() {
    // In three minutes no two readings lie four minutes apart; after a hold they would.
    Session session =
        new InventedWalk()
            .anyTime(
                "{ rule: \"stop when change(heart_rate, 4 min) > 90 bpm\", id: jump, source: own }")
            .begun();
    session.record(at("1:00"), heartRate(100));
    session.record(at("2:00"), heartRate(101));
    session.record(at("2:15"), pressure(130, 80));
    session.record(at("2:45"), rating(12, "rpe_6_20"));
    Decision end = session.record(at("3:00"), heartRate(101));
    assertThat(end.verdict()).isInstanceOf(Verdict.Advance.class);
    assertThat(end.unchecked()).extracting(Decision.Unchecked::rule).contains("jump");
  }

  @Test
  void aReadingAskedForAfterAHoldOutOfStepCounts() {
    Session session =
        new InventedWalk()
            .stageEnd(
                "{ rule: hold 20 s at most 2 times when rpe >= 6 or not known(rpe), id: w, source: own }",
                "{ rule: advance, id: next, source: own }")
            .with("from: calm stages", "from: stages")
            .begun();
    session.record(at("1:00"), heartRate(98));
    session.record(at("2:00"), heartRate(99));
    session.record(at("2:15"), pressure(120, 80));
    session.record(at("2:45"), rating(10, "rpe_6_20"));
    session.follow(session.record(at("3:00"), heartRate(100)));
    session.follow(session.decide(at("3:20")));
    // The pulse of 3:00 is too old to stand at 3:40.
    Decision asked = session.decide(at("3:40"));
    assertThat(asked.verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(((Verdict.Measure) asked.verdict()).gaps().toString()).contains("heart_rate");
    Decision told = session.record(at("3:41"), heartRate(101));
    assertThat(told.verdict()).isEqualTo(session.decide(at("3:41")).verdict());
    assertThat(told.verdict()).isInstanceOf(Verdict.Advance.class);
  }
}
