package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.bundled.Sessions.assertRefused;
import static org.gradus.bundled.Sessions.gaps;
import static org.gradus.bundled.Sessions.recovering;
import static org.gradus.bundled.Sessions.rules;
import static org.gradus.bundled.Sessions.secondStage;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Sign;
import org.gradus.session.Decision;
import org.gradus.session.Ending;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** What stops, finishes and ends a test. People and readings are invented. */
class SessionStopsTest {

  @Test
  void aLateCuffThatIsTooHighIsTakenAgainInTheNextStage() {
    Session session = secondStage();
    Decision retake = session.recordTaken(at("3:25"), at("2:52"), pressure(256, 80));
    assertThat(verdict(retake)).isEqualTo("MEASURE systolic-high");
    assertThat(gaps(retake)).containsExactly("systolic: to be read a second time");
    assertThat(verdict(session.record(at("4:00"), pressure(252, 80))))
        .isEqualTo("STOP systolic-high");
  }

  @Test
  void whoAsksLateGetsTheAnswerOfWhoAskedAllAlong() {
    Session session = secondStage();
    session.record(at("4:00"), heartRate(112));
    session.record(at("5:00"), heartRate(101));
    // The rate should have risen by half past two minutes into the stage.
    assertThat(session.decide(at("5:29")).verdict()).isInstanceOf(Verdict.Continue.class);
    for (String asked : new String[] {"5:30", "5:45", "6:00", "6:29"}) {
      Decision retake = session.decide(at(asked));
      assertThat(verdict(retake)).as(asked).isEqualTo("MEASURE rate-does-not-rise");
      assertThat(((Verdict.Measure) retake.verdict()).until()).contains(at("6:30"));
    }
    assertThat(verdict(session.decide(at("6:30")))).isEqualTo("STOP rate-does-not-rise");
    assertThat(verdict(session.decide(at("7:10")))).isEqualTo("STOP rate-does-not-rise");
  }

  @Test
  void whatAStepMoreWouldHaveMadeWaitIsAsOpenInRecovery() {
    Session session = walking(ines(), 134, 136);
    // The limit is 115: a step of the cuff higher, and it would have to be taken again.
    session.recordTaken(at("3:00"), at("2:50"), pressure(150, 115));
    session.follow(session.decide(at("3:00")));
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
    Decision now = session.record(at("5:00"), heartRate(109));
    assertThat(now.firmness().couldFlip()).containsExactly("diastolic > diastolic_limit");
    Decision taken = session.record(at("6:00"), pressure(140, 80));
    assertThat(taken.verdict()).isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aReadingOfTheExerciseToldInRecoveryCanStillAlarm() {
    Session session = recovering();
    Decision retake = session.recordTaken(at("3:20"), at("2:55"), pressure(256, 80));
    assertThat(verdict(retake)).isEqualTo("MEASURE systolic-high");
    assertThat(session.record(at("3:50"), pressure(180, 80)).verdict())
        .isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aGradedSignStopsFromItsGradeOn() {
    Session session = walking(ines());
    assertThat(session.report(at("1:00"), "breathless", 2).verdict())
        .isInstanceOf(Verdict.Continue.class);
    Decision stop = session.report(at("1:20"), "breathless", 3);
    assertThat(verdict(stop)).isEqualTo("STOP breathless");
    assertThat(((Verdict.Stop) stop.verdict()).rest()).isFalse();
    // It eases, but it has been as bad as that.
    assertThat(verdict(session.report(at("1:30"), "breathless", 1))).isEqualTo("STOP breathless");
    assertRefused(Code.G508, () -> session.report(at("1:40"), "breathless", 5));
    assertRefused(Code.G508, () -> session.report(at("1:40"), "breathless"));
    assertRefused(Code.G508, () -> session.report(at("1:40"), "chest_pain", 1));
  }

  @Test
  void aSignReportedBeforeTheTestDefersIt() {
    Session session = Walks.ready(ines());
    Decision defer = session.report(at("0:10"), "chest_pain");
    assertThat(verdict(defer)).isEqualTo("DEFER chest-pain");
    assertThat(session.withdraw(at("0:20"), "chest_pain", "a slip of the finger").verdict())
        .isInstanceOf(Verdict.Ready.class);
  }

  @Test
  void whoHasNotRecoveredAtTheLimitIsSaidNotToHaveWithEveryConditionThatIsUnmet() {
    Session session = recovering();
    session.record(at("8:00"), heartRate(118), pressure(134, 78));
    Decision decision = session.decide(at("18:00"));
    assertThat(session.decide(at("17:59")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(((Verdict.NotRecovered) decision.verdict()).unmet())
        .singleElement()
        .asString()
        .contains("heart_rate [118 bpm]");
    session.follow(decision);
    assertThat(session.outcome().ending()).contains(Ending.NOT_RECOVERED);
  }

  @Test
  void anEmergencyInRecoveryStopsAgainAndEndsTheSession() {
    Session session = walking(ines());
    session.follow(session.report(at("1:00"), "asks_to_stop"));
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
    Decision stop = session.report(at("2:00"), "chest_pain");
    assertThat(verdict(stop)).isEqualTo("STOP chest-pain");
    session.follow(stop);
    assertThat(session.outcome().ending()).contains(Ending.EMERGENCY);
  }

  @Test
  void afterAStopWithRestRecoveryBeginsWithoutLoad() {
    Session rest = walking(ines());
    rest.follow(rest.report(at("1:00"), "chest_pain"));
    assertThat(rest.decide(at("1:00")).stage()).contains("sit");
    Session coolDown = walking(ines());
    coolDown.follow(coolDown.report(at("1:00"), "asks_to_stop"));
    assertThat(coolDown.decide(at("1:00")).stage()).contains("walk_slowly");
  }

  @Test
  void signsAreAskedForInRecoveryToo() {
    Decision decision = recovering().decide(at("5:00"));
    assertThat(decision.agenda().questions())
        .extracting(Sign::prompt)
        .contains("How is the breathing?");
  }

  @Test
  void aCautionKeepsRecoveryOpen() {
    Session session = recovering();
    session.record(at("5:00"), heartRate(90), pressure(98, 60));
    Decision open = session.decide(at("8:00"));
    assertThat(open.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(rules(open.cautions())).containsExactly("pressure-drop");
    Decision limit = session.decide(at("18:00"));
    // A rate and a cuff of thirteen minutes ago do not show recovery, but the caution stands.
    assertThat(((Verdict.NotRecovered) limit.verdict()).unmet())
        .satisfiesExactly(
            end -> assertThat(end).startsWith("recovered").contains("heart_rate [unknown]"),
            caution -> assertThat(caution).startsWith("pressure-drop"));
    session.record(at("8:30"), heartRate(90), pressure(120, 70));
    assertThat(verdict(session.decide(at("8:30")))).isEqualTo("END recovered");
  }

  @Test
  void aStopThatWaitsForItsSecondReadingKeepsRecoveryOpen() {
    Session session = recovering();
    session.record(at("8:00"), heartRate(90), pressure(138, 118));
    assertThat(verdict(session.decide(at("8:00")))).isEqualTo("MEASURE diastolic-high");
    assertThat(verdict(session.decide(at("9:30")))).isEqualTo("STOP diastolic-high");
    assertThat(verdict(session.record(at("8:40"), pressure(138, 80)))).isEqualTo("END recovered");
  }

  @Test
  void aFollowedStopIsNotSaidAgainOnTheSameReadingsAndRecoveryCanEnd() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(100));
    session.record(at("2:15"), pressure(256, 90));
    Decision stop = session.record(at("2:50"), pressure(258, 90));
    assertThat(verdict(stop)).isEqualTo("STOP systolic-high");
    session.follow(stop);
    assertThat(session.decide(at("2:50")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(session.decide(at("4:30")).verdict()).isInstanceOf(Verdict.Continue.class);
    session.record(at("5:00"), pressure(130, 80));
    assertThat(verdict(session.record(at("8:00"), heartRate(88), pressure(130, 80))))
        .isEqualTo("END recovered");
  }

  @Test
  void aNewCuffThatIsTooHighStopsAgainAfterAFollowedStop() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(100));
    session.record(at("2:15"), pressure(256, 90));
    session.follow(session.record(at("2:50"), pressure(258, 90)));
    // Of the exercise, and told late: it is what was followed already.
    assertThat(session.recordTaken(at("3:10"), at("2:30"), pressure(260, 90)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    Decision retake = session.record(at("5:00"), pressure(254, 90));
    assertThat(verdict(retake)).isEqualTo("MEASURE systolic-high");
    assertThat(verdict(session.record(at("5:40"), pressure(252, 90))))
        .isEqualTo("STOP systolic-high");
  }

  @Test
  void noBundledProtocolSaysAFollowedStopOfPressureAgainWithoutANewReading() {
    int tried = 0;
    for (String id : Bundled.library().protocols()) {
      Protocol protocol = Bundled.library().protocol(id);
      List<ProtocolRule> rules = protocol.rules().endingExercise();
      for (String rule : List.of("systolic-high", "diastolic-high")) {
        if (rules.stream().anyMatch(one -> one.id().equals(rule))) {
          stoppedByACuff(protocol, rule);
          tried++;
        }
      }
    }
    assertThat(tried).isGreaterThan(20);
  }

  private static void stoppedByACuff(Protocol protocol, String rule) {
    Session session = Session.open(protocol, ines());
    Verdict.Ready begin = new Verdict.Ready(protocol.stages().get(0).id(), List.of());
    session.override(at("0:00"), begin, "to see what follows");
    boolean upper = rule.equals("systolic-high");
    session.record(at("0:40"), upper ? pressure(262, 90) : pressure(200, 130));
    Decision stop = session.record(at("0:45"), upper ? pressure(262, 90) : pressure(200, 130));
    assertThat(verdict(stop)).as(protocol.id()).isEqualTo("STOP " + rule);
    session.follow(stop);
    for (String later : List.of("0:45", "0:46", "2:30")) {
      assertThat(session.phase() == Phase.ENDED ? "over" : verdict(session.decide(at(later))))
          .as(protocol.id() + " at " + later)
          .doesNotStartWith("STOP");
    }
  }

  @Test
  void aStopThatTakesTheLoadAwayComesBeforeOneThatLowersIt() {
    Session session = walking(ines());
    session.report(at("1:00"), "asks_to_stop");
    assertThat(verdict(session.report(at("1:10"), "chest_pain"))).isEqualTo("STOP chest-pain");
    // Nothing less urgent takes its place, and what was overridden uncovers what was there before.
    assertThat(verdict(session.report(at("1:20"), "breathless", 3))).isEqualTo("STOP chest-pain");
    session.override(at("1:30"), new Verdict.Continue(at("3:00")), "the strap pinches");
    assertThat(verdict(session.decide(at("1:30")))).isEqualTo("STOP wish");
  }

  @Test
  void aReadingAfterTheWaitIsOverDecidesNoStageEndButCanStillStop() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(104));
    assertThat(verdict(session.decide(at("4:31")))).isEqualTo("FINISH undecided");
    assertThat(verdict(session.record(at("4:40"), heartRate(106)))).isEqualTo("FINISH undecided");
    assertThat(verdict(session.record(at("4:50"), pressure(256, 80))))
        .isEqualTo("STOP systolic-high");
  }

  @Test
  void aRateThatDoesNotRiseStopsOnceASecondCountAgrees() {
    Session session = secondStage();
    session.record(at("5:00"), heartRate(112));
    Decision first = session.record(at("5:50"), heartRate(108));
    assertThat(verdict(first)).isEqualTo("MEASURE rate-does-not-rise");
    assertThat(verdict(session.record(at("6:00"), heartRate(107))))
        .isEqualTo("STOP rate-does-not-rise");
    Session refuted = secondStage();
    refuted.record(at("5:00"), heartRate(112));
    refuted.record(at("5:50"), heartRate(108));
    assertThat(verdict(refuted.record(at("6:00"), heartRate(115)))).isEqualTo("ADVANCE next");
  }

  @Test
  void aRuleThatTimeAloneMakesHoldIsAnsweredWithoutAnEvent() {
    Session session = secondStage();
    session.record(at("5:00"), heartRate(105));
    // Half a minute before the end the rule begins to look.
    assertThat(session.decide(at("5:29")).verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(verdict(session.decide(at("5:30")))).isEqualTo("MEASURE rate-does-not-rise");
    assertThat(verdict(session.record(at("6:00"), heartRate(106))))
        .isEqualTo("STOP rate-does-not-rise");
  }

  @Test
  void anEffortAboveTheCeilingFinishes() {
    Session session = walking(ines());
    assertThat(session.record(at("2:40"), rating(17, "rpe_6_20")).verdict())
        .isInstanceOf(Verdict.Continue.class);
    assertThat(verdict(session.record(at("2:50"), rating(18, "rpe_6_20"))))
        .isEqualTo("FINISH effort");
  }

  @Test
  void aFirstReadingThatOnlyJustAlarmedLeavesTheStopMarginal() {
    Session session = walking(ines());
    Decision first = session.record(at("2:20"), pressure(251, 90));
    assertThat(first.firmness().couldFlip()).containsExactly("systolic > systolic_limit");
    Decision stop = session.record(at("2:50"), pressure(260, 90));
    assertThat(verdict(stop)).isEqualTo("STOP systolic-high");
    assertThat(stop.firmness().isFirm()).isFalse();
  }
}
