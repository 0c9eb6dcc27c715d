package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Sessions.assertRefused;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.DecisionOutdated;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.session.Decision;
import org.gradus.session.Ending;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** What the tester decides. People and readings are invented. */
class SessionTesterTest {

  @Test
  void aTestCanBeBrokenOffAtAnyTimeButOnlyOnce() {
    Session session = walking(ines());
    session.abandon(at("1:30"), "fire alarm");
    assertThat(session.phase()).isEqualTo(Phase.ENDED);
    assertThat(session.decide(at("2:00")).verdict()).isEqualTo(new Verdict.Over(Ending.ABANDONED));
    assertThatThrownBy(() -> session.abandon(at("2:00"), "again"))
        .isInstanceOf(VerdictRefused.class);
    assertRefused(Code.G510, () -> session.record(at("2:00"), heartRate(100)));
    Session before = Walks.ready(ines());
    before.abandon(at("0:30"), "no time");
    assertThat(before.outcome().ending()).contains(Ending.ABANDONED);
  }

  @Test
  void theTesterMayCallAnEmergencyInRecoveryAlsoAfterAStop() {
    Session session = walking(ines());
    session.follow(session.report(at("1:00"), "asks_to_stop"));
    session.override(at("2:00"), new Verdict.Stop(true, ""), "collapsed");
    assertThat(session.outcome().ending()).contains(Ending.EMERGENCY);
  }

  @Test
  void whatIsOfferedCanBeFollowedAndNothingElse() {
    Session session = walking(ines(), 112, 114);
    Decision advance = session.decide(at("3:00"));
    assertThat(verdict(advance)).isEqualTo("ADVANCE next");
    Decision.Offer offer = advance.offers().get(0);
    Decision.Offer invented = new Decision.Offer(new Verdict.Hold(at("9:00")), offer.because());
    assertThatThrownBy(() -> session.follow(advance, invented)).isInstanceOf(VerdictRefused.class);
    session.follow(advance, offer);
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
    assertThatThrownBy(() -> session.follow(advance, offer)).isInstanceOf(DecisionOutdated.class);
  }

  @Test
  void aDecisionOfAnotherSessionIsNotFollowed() {
    Decision hold = walking(ines(), 100, 110).decide(at("3:00"));
    Session other = walking(ines(), 108, 110);
    assertThatThrownBy(() -> other.follow(hold)).isInstanceOf(DecisionOutdated.class);
  }

  @Test
  void theTesterMayTestSomeoneWhoWasDeferredAndDeferSomeoneWhoIsReady() {
    Session session = Walks.ready(ines());
    session.record(at("5:00"), resting(pressure(184, 90)));
    assertThat(verdict(session.decide(at("5:00")))).isEqualTo("DEFER high-systolic");
    session.override(
        at("5:00"), new Verdict.Ready("walk_1", List.of()), "white coat; known from before");
    assertThat(session.decide(at("5:00")).stage()).contains("walk_1");
    Session ready = Walks.ready(ines());
    ready.override(at("0:10"), new Verdict.Defer(List.of()), "no time today");
    assertThat(ready.outcome().ending()).contains(Ending.DEFERRED);
    assertThatThrownBy(
            () ->
                Walks.ready(ines())
                    .override(at("0:10"), new Verdict.Ready("walk_9", List.of()), "why not"))
        .isInstanceOf(VerdictRefused.class);
  }

  @Test
  void aHoldThatIsGivenLateIsNotOverBeforeItBegins() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(100));
    Decision hold = session.record(at("4:20"), heartRate(110));
    assertThat(hold.verdict()).isEqualTo(new Verdict.Hold(at("5:00")));
    session.follow(hold);
    // 80 of the 90 seconds for missing readings are spent.
    assertThat(((Verdict.Measure) session.decide(at("5:00")).verdict()).until())
        .contains(at("5:10"));
    assertThat(verdict(session.decide(at("5:10")))).isEqualTo("FINISH undecided");
  }

  @Test
  void aHoldOfTheTestersOwnReachesBeyondThePlannedEndAndCountsAsOne() {
    Session session = walking(ines(), 108, 110);
    assertThatThrownBy(() -> session.override(at("3:00"), new Verdict.Hold(at("2:59")), "wait"))
        .isInstanceOf(VerdictRefused.class);
    session.override(at("3:00"), new Verdict.Hold(at("4:00")), "belt was slow");
    Decision second = session.record(at("4:00"), heartRate(118));
    assertThat(second.verdict()).isEqualTo(new Verdict.Hold(at("5:00")));
    session.follow(second);
    assertThat(verdict(session.record(at("5:00"), heartRate(126))))
        .isEqualTo("FINISH never-steady");
  }

  @Test
  void whatTheTesterOverrodeSpeaksUpAgainWhenItIsToldAgain() {
    Session session = walking(ines());
    Verdict goOn = new Verdict.Continue(at("3:00"));
    session.report(at("1:00"), "chest_pain");
    session.override(at("1:10"), goOn, "muscle ache, as always");
    assertThat(session.decide(at("1:20")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(verdict(session.report(at("2:00"), "chest_pain"))).isEqualTo("STOP chest-pain");
  }

  @Test
  void anOverriddenStopDoesNotTakeAnotherOneWithIt() {
    Session session = walking(ines());
    session.report(at("1:00"), "chest_pain");
    session.report(at("1:00"), "pale_or_cold");
    session.override(at("1:10"), new Verdict.Continue(at("3:00")), "muscle ache, as always");
    assertThat(verdict(session.decide(at("1:10")))).isEqualTo("STOP poor-perfusion");
  }

  @Test
  void anOverriddenFirstReadingIsNotWaitedForAnyMore() {
    Session session = walking(ines());
    session.record(at("2:20"), pressure(254, 90));
    session.override(at("2:30"), new Verdict.Continue(at("3:00")), "the arm was bent");
    assertThat(session.decide(at("2:59")).verdict()).isInstanceOf(Verdict.Continue.class);
    session.record(at("2:45"), heartRate(108));
    assertThat(session.decide(at("4:00")).verdict()).isInstanceOf(Verdict.Measure.class);
  }
}
