package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The answer to a question hangs on what was told, and not on what was asked before, on other rules
 * that were looked at, or on fractions of a second. Of the person neither the sex is known nor
 * {@code spread}, which would divide by zero at this age.
 */
class SameAnswerTest {

  // Rules by the numbers of their places.
  private static Session walk(String... rules) {
    String[] numbered = new String[rules.length];
    for (int i = 0; i < rules.length; i++) {
      numbered[i] = "{ id: rule-" + i + ", rule: " + rules[i] + ", during: stages }";
    }
    return Slope.walk(numbered);
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
