package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.library.Structures;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/** Where a reading belongs that is taken in the second in which a stage ends. */
class LastSecondTest {

  private static Session mile() {
    Session session =
        Session.open(
            Structures.of("mile"),
            Person.builder()
                .age(40)
                .sex(Person.Sex.MALE)
                .mass(kg(70))
                .cleared(true)
                .lowersHeartRate(false)
                .build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  // 100 - 2 x 15 - 0.1 x 140.
  private static void assertAnswer(Session session) {
    Estimate.Available answer = Capacity.of(session.outcome()).headline().orElseThrow();
    assertThat(answer.vo2max().amount()).isEqualTo(56, within(1e-9));
  }

  @Test
  void aPulseToldBeforeItIsSaidThatTheMileIsWalkedCounts() {
    Session session = mile();
    session.record(at("15:00"), heartRate(140));
    session.follow(session.done(at("15:02"), at("15:00")));
    assertAnswer(session);
  }

  @Test
  void ofReadingsBeforeAndAfterTheLineTheNearerOneCounts() {
    Session session = mile();
    session.record(at("14:59"), heartRate(140));
    session.follow(session.done(at("15:02"), at("15:00")));
    session.record(at("15:04"), heartRate(136));
    assertAnswer(session);
  }

  @Test
  void whoHeldByMistakeMayStillTakeAllTheTimeThereIs() {
    Session session = mile();
    Decision done = session.done(at("10:00"), at("10:00"));
    session.override(at("10:00"), new Verdict.Hold(at("11:00")), "one lap is missing");
    session.reject(at("10:30"), done.event(), "done", "one lap is missing");
    assertThat(session.decide(at("12:00")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.done(at("15:00"), at("15:00")).verdict()).isInstanceOf(Verdict.Finish.class);
  }
}
