package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.otto;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.mmHg;

import java.time.Duration;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.DecisionOutdated;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantities;
import org.junit.jupiter.api.Test;

/** The standard walk at its edges. The people and readings are invented. */
class StandardWalkTest {

  @Test
  void aWholeTestWithAHoldAnAdvanceAndAFinish() {
    Session session = walking(ines());
    assertThat(session.record(at("1:00"), pulse(25, seconds(15))).verdict())
        .isInstanceOf(Verdict.Continue.class);
    session.record(at("2:00"), heartRate(104));
    session.record(at("2:50"), pressure(142, 78), rating(9, "rpe_6_20"));
    Decision hold = session.record(at("3:00"), heartRate(110));
    assertThat(verdict(hold)).isEqualTo("HOLD not-yet-steady");
    assertThat(hold.verdict()).isEqualTo(new Verdict.Hold(at("4:00")));
    assertThat(hold.because().orElseThrow().filled().orElseThrow())
        .hasToString(
            "not steady [no]; steady [no] is abs(change(heart_rate, 1 min) [6 bpm]) <= steady_band [5 bpm]");
    session.follow(hold);
    Decision advance = session.record(at("4:00"), heartRate(112));
    assertThat(verdict(advance)).isEqualTo("ADVANCE next");
    assertThat(advance.offers())
        .extracting(offer -> offer.because().rule())
        .containsExactly("enough");
    session.follow(advance);
    session.record(at("5:00"), heartRate(130));
    session.record(at("6:00"), heartRate(136));
    session.record(at("6:55"), pressure(158, 80), rating(13, "rpe_6_20"));
    Decision finish = session.record(at("7:00"), heartRate(138));
    assertThat(verdict(finish)).isEqualTo("FINISH steady-and-high");
    session.follow(finish);
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);

    // Worked by hand: (112, 16.27) and (138, 24.69) read at 174 bpm; 24.69 x (174 - 72) / (138 -
    // 72).
    // These check the implementation, not the coefficients.
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(vo2max(capacity, "stages_line")).isEqualTo(36.35, within(0.05));
    assertThat(vo2max(capacity, "single_stage")).isEqualTo(38.16, within(0.05));
  }

  private static double vo2max(Capacity capacity, String id) {
    return ((Estimate.Available) capacity.estimate(id).orElseThrow()).vo2max().amount();
  }

  @Test
  void aChangeOfExactlyTheBandIsSteadyAndOneMoreIsNot() {
    assertThat(verdict(walking(ines(), 105, 110).decide(at("3:00")))).isEqualTo("ADVANCE next");
    assertThat(verdict(walking(ines(), 105, 111).decide(at("3:00"))))
        .isEqualTo("HOLD not-yet-steady");
    assertThat(verdict(walking(ines(), 110, 105).decide(at("3:00")))).isEqualTo("ADVANCE next");
    assertThat(verdict(walking(ines(), 111, 105).decide(at("3:00"))))
        .isEqualTo("HOLD not-yet-steady");
  }

  @Test
  void aRateExactlyAtTheFinishingLimitFinishesAndOneBelowAdvancesWithFinishingOffered() {
    assertThat(verdict(walking(ines(), 134, 135).decide(at("3:00"))))
        .isEqualTo("FINISH steady-and-high");
    Decision below = walking(ines(), 133, 134).decide(at("3:00"));
    assertThat(verdict(below)).isEqualTo("ADVANCE next");
    assertThat(below.offers())
        .extracting(offer -> offer.verdict().word())
        .containsExactly("FINISH");
  }

  @Test
  void afterTheLastHoldTheNextRuleDecides() {
    Session session = walking(ines(), 100, 110);
    session.follow(session.decide(at("3:00")));
    Decision second = session.record(at("4:00"), heartRate(120));
    assertThat(verdict(second)).isEqualTo("HOLD not-yet-steady");
    session.follow(second);
    assertThat(verdict(session.record(at("5:00"), heartRate(130))))
        .isEqualTo("FINISH never-steady");
  }

  @Test
  void advancingFromTheLastStageFinishes() {
    Session session = walking(ines());
    session.override(at("0:30"), new Verdict.Advance("walk_7"), "to see the end");
    session.record(at("2:30"), heartRate(100));
    assertThat(verdict(session.record(at("3:30"), heartRate(102)))).isEqualTo("FINISH next");
  }

  @Test
  void forAnOlderPersonTheCeilingEndsTheTestBeforeTheFixedLimit() {
    assertThat(verdict(walking(otto(), 122, 122).decide(at("3:00")))).isEqualTo("ADVANCE next");
    // 85 % of 156 is 132.6, in whole beats 133; ten below is 123.
    assertThat(verdict(walking(otto(), 122, 123).decide(at("3:00"))))
        .isEqualTo("FINISH steady-and-high");
  }

  @Test
  void aRateAboveTheCeilingEndsTheTestOnceASecondCountAgrees() {
    Session session = walking(otto());
    Decision first = session.record(at("1:00"), heartRate(134));
    assertThat(first.verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(verdict(session.record(at("1:10"), heartRate(135)))).isEqualTo("FINISH ceiling");
    Session refuted = walking(otto());
    refuted.record(at("1:00"), heartRate(134));
    assertThat(refuted.record(at("1:10"), heartRate(130)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    Session unanswered = walking(otto());
    unanswered.record(at("1:00"), heartRate(134));
    assertThat(unanswered.decide(at("1:14")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(verdict(unanswered.decide(at("1:15")))).isEqualTo("FINISH ceiling");
  }

  @Test
  void aMissingRateAtTheEndIsAskedForAndWaitedForNoLongerThanAllowed() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(108));
    Decision measure = session.decide(at("3:00"));
    assertThat(measure.verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(((Verdict.Measure) measure.verdict()).gaps())
        .extracting(Object::toString)
        .containsExactly("heart_rate: too old");
    assertThat(((Verdict.Measure) measure.verdict()).until()).contains(at("4:30"));
    assertThat(session.decide(at("4:29")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(verdict(session.decide(at("4:30")))).isEqualTo("FINISH undecided");
    assertThat(verdict(session.record(at("3:40"), heartRate(110)))).isEqualTo("ADVANCE next");
  }

  @Test
  void aMissedSecondMinuteIsSettledAMinuteAfterTheNextCount() {
    Session session = walking(ines());
    session.record(at("1:00"), heartRate(100));
    Decision measure = session.record(at("3:00"), heartRate(110));
    assertThat(((Verdict.Measure) measure.verdict()).gaps())
        .extracting(gap -> gap + " " + gap.settle())
        .containsExactly("heart_rate: no earlier reading to compare with At[time=PT4M]");
    assertThat(verdict(session.record(at("4:00"), heartRate(112)))).isEqualTo("ADVANCE next");
  }

  @Test
  void painReportedASecondEarlierStopsWhateverElseHolds() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(108));
    assertThat(verdict(session.report(at("2:59"), "chest_pain"))).isEqualTo("STOP chest-pain");
    assertThat(verdict(session.record(at("3:00"), heartRate(110)))).isEqualTo("STOP chest-pain");
    Decision late = session.decide(at("4:00"));
    assertThat(verdict(late)).isEqualTo("STOP chest-pain");
    session.follow(late);
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
    assertThatThrownBy(
            () -> session.override(at("4:10"), new Verdict.Advance("walk_2"), "feels better"))
        .isInstanceOfSatisfying(
            VerdictRefused.class, refused -> assertThat(refused.code()).isEqualTo(Code.G602));
  }

  @Test
  void anAlarmingPressureIsTakenTwice() {
    Session session = walking(ines());
    Decision retake = session.record(at("2:20"), pressure(254, 90));
    assertThat(retake.verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(verdict(session.record(at("2:50"), pressure(252, 90))))
        .isEqualTo("STOP systolic-high");
    Session calmed = walking(ines());
    calmed.record(at("2:20"), pressure(254, 90));
    assertThat(calmed.record(at("2:50"), pressure(170, 90)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    Session alone = walking(ines());
    alone.record(at("2:20"), pressure(254, 90));
    assertThat(verdict(alone.decide(at("3:50")))).isEqualTo("STOP systolic-high");
  }

  @Test
  void readingsThatCannotBeAreRefusedAndTheSessionGoesOn() {
    Session session = walking(ines());
    session.record(at("1:00"), heartRate(100));
    assertRefused(Code.G502, () -> session.record(at("1:10"), heartRate(700)));
    assertRefused(Code.G505, () -> session.record(at("1:10"), pressure(80, 120)));
    assertRefused(Code.G501, () -> session.record(at("1:10"), measured("heart_rate", mmHg(100))));
    assertRefused(Code.G503, () -> session.record(at("0:50"), heartRate(100)));
    assertRefused(Code.G504, () -> session.recordTaken(at("1:10"), at("1:20"), heartRate(100)));
    assertRefused(
        Code.G506, () -> session.record(at("1:10"), measured("lactate", Quantities.number(3))));
    assertRefused(Code.G508, () -> session.record(at("1:10"), rating(13, "cr_10")));
    assertRefused(Code.G502, () -> session.record(at("1:10"), rating(13.5, "rpe_6_20")));
    assertRefused(Code.G507, () -> session.record(at("1:10"), heartRateAgain(session)));
    session.record(at("2:00"), heartRate(108));
    assertThat(verdict(session.record(at("3:00"), heartRate(110)))).isEqualTo("ADVANCE next");
  }

  private static org.gradus.session.Reading heartRateAgain(Session session) {
    session.record(at("1:10"), heartRate(101));
    return heartRate(102);
  }

  private static void assertRefused(
      Code code, org.assertj.core.api.ThrowableAssert.ThrowingCallable call) {
    assertThatThrownBy(call)
        .isInstanceOfSatisfying(
            ReadingRefused.class, refused -> assertThat(refused.code()).isEqualTo(code));
  }

  @Test
  void aSlowedHeartIsDeferredWithEveryReason() {
    Person slowed =
        Person.builder()
            .age(46)
            .sex(Sex.FEMALE)
            .mass(Quantities.kg(71))
            .cleared(false)
            .lowersHeartRate(true)
            .build();
    Decision defer = Walks.ready(slowed).decide(at("0:00"));
    assertThat(((Verdict.Defer) defer.verdict()).reasons())
        .extracting(because -> because.rule())
        .containsExactly("not-cleared", "rate-guided");
    assertThat(defer.cautions())
        .extracting(because -> because.rule())
        .containsExactly("slow-heart");
  }

  @Test
  void whatIsNotAnsweredIsAskedFor() {
    Session session = Session.open(WALK, otto());
    Decision decision = session.decide(Duration.ZERO);
    assertThat(((Verdict.Measure) decision.verdict()).gaps())
        .extracting(gap -> gap.subject())
        .containsExactly(
            "resting.systolic",
            "resting.diastolic",
            "resting.heart_rate",
            "unwell_today",
            "recent_event");
  }

  @Test
  void anOutdatedDecisionIsNotFollowed() {
    Session session = walking(ines(), 108, 110);
    Decision advance = session.decide(at("3:00"));
    session.record(at("3:05"), pressure(140, 80));
    assertThatThrownBy(() -> session.follow(advance)).isInstanceOf(DecisionOutdated.class);
    session.follow(session.decide(at("3:05")));
    assertThat(session.phase()).isEqualTo(Phase.STAGE);
  }

  @Test
  void aMissingCuffReadingIsSaidToBeUnchecked() {
    Decision decision = walking(ines(), 108, 110).decide(at("3:00"));
    assertThat(decision.unchecked())
        .extracting(unchecked -> unchecked.rule())
        .contains("systolic-high", "diastolic-high", "systolic-falls", "effort");
  }

  @Test
  void aCountedPulseNearTheBandMakesTheDecisionMarginal() {
    Session session = walking(ines());
    session.record(at("2:00"), pulse(27, seconds(15)));
    Decision decision = session.record(at("3:00"), pulse(28, seconds(15)));
    assertThat(verdict(decision)).isEqualTo("ADVANCE next");
    assertThat(decision.firmness().couldFlip())
        .contains("abs(change(heart_rate, 1 min)) <= steady_band");
    assertThat(walking(ines(), 112, 112).decide(at("3:00")).firmness().isFirm()).isTrue();
  }

  @Test
  void theLongestPossibleTestIsANumber() {
    // Seven stages of 3 minutes, each with two holds of a minute and one wait of 90 s; recovery 15
    // minutes.
    assertThat(WALK.longest()).hasSeconds(7 * (180 + 120 + 90) + 900);
  }

  @Test
  void theTesterMayOverrideAHold() {
    Session session = walking(ines(), 100, 110);
    session.override(
        at("3:05"), new Verdict.Advance("walk_2"), "the person has walked all her life");
    assertThat(session.decide(at("3:05")).stage()).contains("walk_2");
    assertThatThrownBy(() -> session.override(at("3:10"), new Verdict.Advance("walk_1"), "back"))
        .isInstanceOf(VerdictRefused.class);
  }

  @Test
  void afterTheExerciseThePersonRecovers() {
    Session session = walking(ines(), 134, 136);
    session.follow(session.decide(at("3:00")));
    session.record(at("4:00"), heartRate(120));
    session.record(at("5:00"), heartRate(110), pressure(138, 78));
    session.record(at("8:00"), heartRate(92));
    assertThat(session.decide(at("8:00")).verdict()).isInstanceOf(Verdict.End.class);
  }
}
