package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/** How many stages a definition held in is counted by what is known now. */
class CountedStagesTest {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: terraces
      version: 1.0.0
      title: An invented walk in four stages
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
      define:
        good: { value: heart_rate > 100 bpm and completed(second), source: practice }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure:
        - { read: heart_rate, before_end: 30 s, late: 1 min, if_missing: go_on }
      stages:
        - { id: first, lasts: 2 min, speed: 3 km/h }
        - { id: second, lasts: 2 min, speed: 4 km/h }
        - { id: third, lasts: 2 min, speed: 5 km/h }
        - { id: fourth, lasts: 2 min, speed: 6 km/h }
      stage_end:
        - { id: enough, rule: finish when count(good) >= 3 }
        - { id: next, rule: advance }
      estimates:
        - { id: walked, from: finish, vo2max: (10 * count(good)) as mL/kg/min, source: practice }
      """;

  private static final List<String> ENDS = List.of("2:00", "4:00", "6:00");

  private static Session walk() {
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("terraces.yaml", FILE))).protocol("terraces"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static Decision endOfTheThird(Session session, boolean isAskedOnTheWay) {
    Decision decision = session.decide(at("0:00"));
    for (String end : ENDS) {
      session.record(at(end).minusSeconds(30), heartRate(120));
      if (isAskedOnTheWay) {
        Capacity.of(session.outcome());
        session.decide(at(end).minusSeconds(1));
      }
      decision = session.decide(at(end));
      session.follow(decision);
    }
    return decision;
  }

  @Test
  void aStageCountsByWhatIsKnownLater() {
    // Whether the second stage was gone through is known from the third on, for the first one, too.
    Decision third = endOfTheThird(walk(), false);
    assertThat(third.because().orElseThrow().rule()).isEqualTo("enough");
  }

  @Test
  void askingOnTheWayChangesNoCount() {
    assertThat(endOfTheThird(walk(), true)).isEqualTo(endOfTheThird(walk(), false));
  }
}
