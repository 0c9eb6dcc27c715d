package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/** To rest is to have no load, whatever a file sets in recovery. */
class RestTest {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: mill
      version: 1.0.0
      title: An invented walk whose recovery only walks
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm, source: practice }
      signs:
        chest_pain: { watch: Pain in the chest }
        tired: { watch: Wants to go slower }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure: [{ read: heart_rate, each: 1 min, if_missing: wait }]
      stages: [{ id: walk, lasts: 3 min, speed: 5 km/h, grade: 4 % }]
      any_time:
        - { id: pain, rule: stop when chest_pain, then: rest }
        - { id: tired, rule: stop when tired, then: cool_down }
      stage_end: [{ id: done, rule: finish }]
      recovery:
        stages: [{ id: slowly, lasts: 3 min, speed: 3 km/h, grade: 0 % }]
        measure: [{ read: heart_rate, each: 1 min }]
        rules: [{ id: calm, rule: end when heart_rate < 100 bpm }]
        at_most: 5 min
      """;

  private static Session stopped(String sign) {
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("mill.yaml", FILE))).protocol("mill"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    Decision stop = session.report(at("1:00"), sign);
    assertThat(stop.verdict()).isInstanceOf(Verdict.Stop.class);
    session.follow(stop);
    return session;
  }

  @Test
  void aStopWithRestTakesTheLoadAwayForGood() {
    Session session = stopped("chest_pain");
    assertThat(session.outcome().load(at("1:00"))).isEmpty();
    assertThat(session.outcome().load(at("4:30"))).isEmpty();
  }

  @Test
  void aStopThatCoolsDownKeepsThePersonMoving() {
    assertThat(Loading.line(stopped("tired").outcome().load(at("1:00")))).isEqualTo("3 km/h, 0 %");
  }
}
