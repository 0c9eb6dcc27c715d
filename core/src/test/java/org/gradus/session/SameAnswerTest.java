package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/**
 * The answer to a question hangs on what was told, and not on what was asked before, on other rules
 * that were looked at, or on fractions of a second. Of the person neither the sex is known nor
 * {@code spread}, which would divide by zero at this age.
 */
class SameAnswerTest {

  private static final String WALK =
      """
      format: 1
      kind: protocol
      id: slope
      version: 1.0.0
      title: An invented walk in two stages
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
      define:
        limit: { value: if sex is female then 120 bpm else 150 bpm, source: practice }
        spread: { value: 1 / ((age in years) - 40), source: practice }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure:
        - { read: heart_rate, each: 1 min, late: 1 min, if_missing: go_on }
      stages:
        - { id: low, lasts: 2 min, speed: 3 km/h }
        - { id: high, lasts: 2 min, speed: 4 km/h }
      stage_end: [{ id: next, rule: advance }]
      any_time:
      """;

  private static Session walk(String... rules) {
    StringBuilder text = new StringBuilder(WALK);
    for (int i = 0; i < rules.length; i++) {
      text.append("  - { id: rule-" + i + ", rule: " + rules[i] + ", during: stages }\n");
    }
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("slope.yaml", text.toString()))).protocol("slope"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  @Test
  void aStopOfTheClockIsGivenWhateverTheFractionOfTheSecondOfTheLastReading() {
    for (String rule :
        List.of(
            "stop when stage.time >= 1:30",
            "stop when heart_rate > 150 bpm and stage.time >= 90 s")) {
      Session session = walk(rule);
      session.record(Duration.ofNanos(60_000_600_000L), heartRate(160));
      assertThat(session.decide(at("1:30")).verdict()).as(rule).isInstanceOf(Verdict.Stop.class);
    }
  }

  @Test
  void aLateReadingOfTheStageBeforeIsSeenBesideANewerOne() {
    Session session = walk("stop when heart_rate < previous_stage.heart_rate");
    session.record(at("1:00"), heartRate(100));
    session.follow(session.decide(at("2:00")));
    session.record(at("2:30"), heartRate(110));
    Decision late = session.recordTaken(at("2:40"), at("2:00"), heartRate(130));
    assertThat(late.verdict()).isInstanceOf(Verdict.Stop.class);
  }

  @Test
  void aDecisionCanBeFollowedAfterOthersWereAskedFor() {
    Session session =
        walk(
            "finish when heart_rate > 150 bpm and spread > 2 and stage.time > 1 s",
            "caution when spread > 5");
    Decision first = session.record(at("1:00"), heartRate(150));
    assertThat(session.decide(at("1:00"))).isEqualTo(first);
    assertThat(session.decide(at("1:00"))).isEqualTo(first);
    session.follow(first);
  }

  @Test
  void otherRulesMakeNoDecisionFirm() {
    String rule = "stop when heart_rate > 150 bpm and spread > 2";
    Decision alone = walk(rule).record(at("1:00"), heartRate(150));
    Decision beside =
        walk(rule, "stop when spread > 9 or stage.time > 100 s").record(at("1:00"), heartRate(150));
    assertThat(alone.firmness().couldFlip()).contains("heart_rate > 150 bpm");
    assertThat(beside.firmness().couldFlip()).containsAll(alone.firmness().couldFlip());
  }

  @Test
  void whatHangsOnSomethingUnknownIsNotFirm() {
    Decision decision = walk("stop when heart_rate > limit").record(at("1:00"), heartRate(130));
    assertThat(decision.firmness().couldFlip()).containsExactly("heart_rate > limit");
  }
}
