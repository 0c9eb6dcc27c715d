package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/**
 * A reading that is put right after something was done: what was done stands, and says nothing
 * about what nobody knew then.
 */
class AmendedAfterAnActTest {

  private static final String RULE = "{ id: fast, rule: stop when heart_rate > 150 bpm }";

  private static int told(Session session) {
    session.record(at("1:00"), heartRate(140));
    return session.events().size();
  }

  @Test
  void aDecisionIsNotFirmByAVerdictThatWasFollowedOnAnotherReading() {
    Session session = Slope.walk(RULE);
    int reading = told(session);
    session.record(at("2:00"), heartRate(120));
    session.follow(session.decide(at("2:00")));
    // Half a beat more, and a stop would have been kept since 1:00.
    Decision amended = session.amend(at("2:10"), reading, heartRate(150), "misread");
    assertThat(amended.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(amended.firmness().couldFlip()).containsExactly("heart_rate > 150 bpm");
  }

  @Test
  void aDecisionIsFirmByAVerdictThatWasFollowedOnTheSameReadings() {
    Session session = Slope.walk(RULE);
    session.record(at("1:00"), heartRate(150));
    session.record(at("2:00"), heartRate(120));
    session.follow(session.decide(at("2:00")));
    int later = session.events().size() + 1;
    session.record(at("3:00"), heartRate(121));
    Decision amended = session.amend(at("3:10"), later, heartRate(122), "misread");
    assertThat(amended.firmness().isFirm()).isTrue();
  }

  @Test
  void whoDecidedOtherwiseHasNotAnsweredAStopThatNobodyKnewOf() {
    Session session = Slope.walk(RULE);
    int reading = told(session);
    session.override(at("1:30"), new Verdict.Hold(at("3:00")), "needs a little longer");
    Decision amended = session.amend(at("1:40"), reading, heartRate(190), "misread");
    assertThat(amended.verdict()).isInstanceOf(Verdict.Stop.class);
  }

  @Test
  void aStopThatWasAnsweredStaysSoWhenAnotherReadingIsPutRight() {
    Session session = Slope.walk(RULE);
    int reading = told(session);
    session.record(at("1:10"), heartRate(160));
    session.override(at("1:20"), new Verdict.Hold(at("3:00")), "the strap slips");
    Decision amended = session.amend(at("1:40"), reading, heartRate(142), "misread");
    assertThat(amended.verdict()).isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aTestThatIsTakenUpAgainHasTheSameAnswers() {
    Session session = Slope.walk(RULE);
    int reading = told(session);
    session.override(at("1:30"), new Verdict.Hold(at("3:00")), "needs a little longer");
    session.amend(at("1:40"), reading, heartRate(190), "misread");
    Person person = Person.builder().age(40).lowersHeartRate(false).build();
    List<Event> events = session.events();
    Session again = Session.resume(session.protocol(), person, events, Ledger.NONE);
    assertThat(again.decide(at("1:50"))).isEqualTo(session.decide(at("1:50")));
    assertThat(Optional.of(again.decide(at("1:50")).verdict()))
        .containsInstanceOf(Verdict.Stop.class);
  }
}
