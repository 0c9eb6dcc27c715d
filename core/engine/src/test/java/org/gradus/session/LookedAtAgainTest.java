package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Times.at;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Rules are looked at again whenever their answers may have changed, and no stop is passed over.
 */
class LookedAtAgainTest {

  private static Decision cuffOfTheFirstStageToldLate(String rule) {
    Session session = Slope.walk("{ id: falls, rule: %s, during: stages }".formatted(rule));
    session.record(at("1:00"), heartRate(90));
    session.record(at("2:00"), heartRate(94));
    session.follow(session.decide(at("2:00")));
    Decision before = session.record(at("2:10"), pressure(150, 80));
    assertThat(before.verdict()).isInstanceOf(Verdict.Continue.class);
    return session.recordTaken(at("2:20"), at("1:45"), pressure(190, 82));
  }

  // The cuff of the stage before is not the newest one, but a fall of pressure rests on it.
  @ParameterizedTest
  @ValueSource(
      strings = {
        "stop when known(previous_stage.systolic) and systolic < previous_stage.systolic - 20 mmHg",
        "stop when previous_stage.systolic > 180 mmHg"
      })
  void aLateCuffOfTheStageBeforeStopsAtOnce(String rule) {
    assertThat(cuffOfTheFirstStageToldLate(rule).verdict()).isInstanceOf(Verdict.Stop.class);
  }

  @Test
  void aLateCuffOfTheStageBeforeCanMakeAStopOnlyJustNotHold() {
    Decision answer = cuffOfTheFirstStageToldLate("stop when previous_stage.systolic > 190 mmHg");
    assertThat(answer.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(answer.firmness().couldFlip()).isNotEmpty();
  }

  @Test
  void ofTwoStopsThatWaitedInVainWhoAsksLateIsToldTheOneThatCountedFirst() {
    Session session =
        Slope.walk(
            "{ id: slow, rule: stop when systolic > 180 mmHg, confirm: 90 s }",
            "{ id: quick, rule: stop when systolic > 170 mmHg, confirm: 15 s }");
    session.record(at("0:10"), pressure(190, 80));
    Because soon = session.decide(at("0:30")).because().orElseThrow();
    assertThat(soon.rule()).isEqualTo("quick");
    assertThat(session.decide(at("1:50")).because()).contains(soon);
  }

  @Test
  void theMoreUrgentOfTwoStopsThatWaitedInVainIsTold() {
    Session session =
        Slope.walk(
            "{ id: slow, rule: stop when systolic > 180 mmHg, confirm: 90 s, then: rest }",
            "{ id: quick, rule: stop when systolic > 170 mmHg, confirm: 15 s, then: cool_down }");
    session.record(at("0:10"), pressure(190, 80));
    assertThat(session.decide(at("0:30")).because().orElseThrow().rule()).isEqualTo("quick");
    assertThat(session.decide(at("1:50")).because().orElseThrow().rule()).isEqualTo("slow");
  }

  // With the pressure still to be read the rule can only fail or be unknown; which of the two hangs
  // on the step of the pulse.
  @Test
  void timeAloneCanMakeADecisionHangOnTheStepOfAReading() {
    Session session =
        Slope.walk(
            "rule: stop when heart_rate > 150 bpm and stage.time > 60 s and systolic > 200 mmHg\n"
                + "    id: both");
    session.record(at("0:50"), heartRate(150));
    assertThat(session.decide(at("0:55")).firmness().couldFlip()).isEmpty();
    assertThat(session.decide(at("1:10")).firmness().couldFlip()).isNotEmpty();
  }
}
