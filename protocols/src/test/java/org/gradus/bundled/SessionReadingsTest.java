package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Sessions.assertRefused;
import static org.gradus.bundled.Sessions.gaps;
import static org.gradus.bundled.Sessions.recovering;
import static org.gradus.bundled.Sessions.rules;
import static org.gradus.bundled.Sessions.secondStage;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.otto;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Readings.upright;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.mmHg;

import java.time.Duration;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** How readings, signs and loads count. People and readings are invented. */
class SessionReadingsTest {

  @Test
  void aLateCuffBelongsToTheStageInWhichItWasTaken() {
    Session session = secondStage();
    session.recordTaken(at("3:25"), at("2:52"), pressure(160, 80));
    session.record(at("5:00"), heartRate(120));
    session.record(at("5:55"), pressure(140, 80));
    Decision end = session.record(at("6:00"), heartRate(122));
    // 140 mmHg lies more than 10 below the 160 of the first stage, and not below the 122 at rest.
    assertThat(verdict(end)).isEqualTo("MEASURE systolic-falls");
  }

  @Test
  void aCuffToldLaterThanTheScheduleAllowsIsRefused() {
    Session session = secondStage();
    assertRefused(Code.G509, () -> session.recordTaken(at("3:46"), at("2:52"), pressure(160, 80)));
    assertThat(session.recordTaken(at("3:45"), at("2:52"), pressure(160, 80)).verdict())
        .isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aLateReadingOfAnEarlierTimeIsNoSecondReading() {
    Session session = walking(ines());
    session.record(at("2:40"), pressure(256, 80));
    Decision decision = session.recordTaken(at("2:50"), at("2:20"), pressure(150, 80));
    assertThat(verdict(decision)).isEqualTo("MEASURE systolic-high");
  }

  @Test
  void aReadingOfTheExerciseToldInRecoverySaysNothingAboutRecovery() {
    Session session = recovering();
    session.recordTaken(at("3:20"), at("2:55"), pressure(130, 80));
    session.record(at("5:00"), heartRate(85));
    // Without a cuff in recovery the end is not earned, however good the last one before it was.
    assertThat(session.decide(at("8:00")).verdict()).isInstanceOf(Verdict.Continue.class);
    session.record(at("9:00"), heartRate(85), pressure(130, 80));
    assertThat(verdict(session.decide(at("9:00")))).isEqualTo("END recovered");
  }

  @Test
  void theSameReadingIsNotToldTwice() {
    Session session = walking(ines());
    session.record(at("1:00"), heartRate(100));
    session.record(at("2:00"), heartRate(108));
    assertRefused(Code.G507, () -> session.recordTaken(at("2:10"), at("1:00"), heartRate(104)));
    assertRefused(Code.G507, () -> session.record(at("2:20"), heartRate(104), heartRate(106)));
  }

  // The value, the time and the event are those of the first reading, whenever the second is told.
  @Test
  void aSecondReadingOfAMomentNamesTheFirst() {
    Session session = walking(ines());
    int event = session.record(at("1:00"), heartRate(100)).event();
    session.record(at("2:00"), heartRate(108));
    assertThatThrownBy(() -> session.recordTaken(at("2:10"), at("1:00"), heartRate(104)))
        .hasMessageContaining("heart_rate of 104 bpm")
        .hasMessageContaining("already recorded: 100 bpm at 1:00 in event " + event + ";");
    assertThatThrownBy(() -> session.record(at("2:20"), heartRate(104), heartRate(106)))
        .hasMessageContaining("104 bpm at 2:20 in the same event");
  }

  @Test
  void pressuresAreComparedWithinTheirPostureAlsoWhenToldApart() {
    Session session = Session.open(Walks.WALK, ines());
    session.record(
        at("0:00"),
        resting(measured("systolic", mmHg(90))),
        upright(measured("diastolic", mmHg(95))),
        upright(measured("systolic", mmHg(130))));
    assertRefused(
        Code.G505, () -> session.record(at("0:00"), resting(measured("diastolic", mmHg(92)))));
    session.record(at("0:00"), resting(measured("diastolic", mmHg(70))));
    Session walk = walking(ines());
    walk.record(at("2:20"), measured("systolic", mmHg(120)));
    assertRefused(
        Code.G505,
        () -> walk.recordTaken(at("2:30"), at("2:20"), measured("diastolic", mmHg(130))));
  }

  @Test
  void weightOnTheHandrailLastsAcrossStagesAndSpoilsEveryEstimate() {
    Session session = walking(ines());
    assertThat(rules(session.report(at("1:00"), "handrail").cautions())).containsExactly("rail");
    session.record(at("2:00"), heartRate(110));
    session.follow(session.record(at("3:00"), heartRate(112)));
    assertThat(rules(session.decide(at("4:00")).cautions())).containsExactly("rail");
    assertThat(session.withdraw(at("4:10"), "handrail", "lets go").cautions()).isEmpty();
    session.record(at("5:00"), heartRate(136));
    session.follow(session.record(at("6:00"), heartRate(138)));
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
    assertThat(Capacity.of(session.outcome()).estimates())
        .hasSize(5)
        .allSatisfy(estimate -> assertThat(estimate).isInstanceOf(Estimate.Unavailable.class));
  }

  @Test
  void anotherLoadStartsTheReadingsOfTheStageAgain() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(108));
    session.loadSet(at("2:30"), new Loading("speed", Quantity.of(1.9, Unit.MPH)));
    Decision end = session.record(at("3:00"), heartRate(110));
    assertThat(gaps(end)).containsExactly("heart_rate: no earlier reading to compare with");
    // What was read under the old load does not fill the gap.
    assertThat(session.recordTaken(at("3:05"), at("2:05"), heartRate(109)).verdict())
        .isInstanceOf(Verdict.Measure.class);
    assertThat(verdict(session.record(at("4:00"), heartRate(112)))).isEqualTo("ADVANCE next");
    assertThat(session.outcome().load())
        .containsExactly(
            new Loading("speed", Quantity.of(1.9, Unit.MPH)),
            new Loading("grade", Quantity.of(10, Unit.PERCENT)));
  }

  @Test
  void toldTheLoadThatIsSetAnywayTheReadingsStand() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(108));
    session.loadSet(at("2:30"), new Loading("speed", Quantity.of(1.7, Unit.MPH)));
    assertThat(verdict(session.record(at("3:00"), heartRate(110)))).isEqualTo("ADVANCE next");
    assertRefused(
        Code.G508,
        () -> session.loadSet(at("3:00"), new Loading("power", Quantity.of(50, Unit.WATT))));
  }

  @Test
  void aCountIsAsFineAsItsStretchOfTime() {
    // 33 beats in 15 s are 132 bpm, one below the ceiling of 133, to a step of 4.
    Session counted = walking(otto());
    Decision coarse = counted.record(at("1:00"), pulse(33, seconds(15)));
    assertThat(coarse.verdict()).isInstanceOf(Verdict.Continue.class);
    assertThat(coarse.firmness().couldFlip()).containsExactly("heart_rate > ceiling_rate");
    Decision fine = walking(otto()).record(at("1:00"), pulse(132, seconds(60)));
    assertThat(fine.firmness().isFirm()).isTrue();
  }

  @Test
  void aStrapCountsByTheMeanOfItsStretchAndACountByItself() {
    Session strap = walking(ines());
    strap.record(at("2:00"), heartRate(104));
    strap.record(at("2:50"), heartRate(106));
    strap.record(at("2:55"), heartRate(108));
    strap.record(at("3:00"), heartRate(113));
    // The mean of the last 15 seconds is 109; what comes after the due time does not change it.
    assertThat(verdict(strap.record(at("3:05"), heartRate(114)))).isEqualTo("ADVANCE next");
    Session count = walking(ines(), 104, 109);
    assertThat(verdict(count.record(at("3:05"), heartRate(114)))).isEqualTo("HOLD not-yet-steady");
  }

  @Test
  void twoReadingsTooNearToEachOtherDoNotShowASteadyRate() {
    Session session = walking(ines());
    session.record(at("2:00"), heartRate(100));
    session.follow(session.record(at("3:40"), heartRate(110)));
    // At 5:00 the wait will be over: no reading can show it any more, and none is asked for.
    Decision undecided = session.record(at("4:00"), heartRate(111));
    assertThat(verdict(undecided)).isEqualTo("FINISH undecided");
    assertThat(undecided.because().orElseThrow().why())
        .isEqualTo(
            "no reading can decide any more; missing: heart rate: no earlier reading to compare"
                + " with");
  }

  @Test
  void timesThatNoTestHasAreRefused() {
    Session session = walking(ines());
    Duration never = Duration.ofSeconds(Long.MAX_VALUE);
    assertRefused(Code.G502, () -> session.record(never, heartRate(100)));
    assertRefused(Code.G502, () -> session.recordTaken(at("1:00"), never.negated(), heartRate(1)));
    assertRefused(Code.G502, () -> session.decide(never));
    assertRefused(Code.G502, () -> session.override(at("1:00"), new Verdict.Hold(never), "rest"));
    assertRefused(Code.G503, () -> session.decide(Duration.ofSeconds(-1)));
  }

  @Test
  void wordsThatAreNotOfferedAreRefused() {
    Session session = walking(ines());
    assertRefused(Code.G508, () -> session.record(at("2:50"), Readings.chosen("gait", "hopping")));
    session.record(at("2:50"), Readings.chosen("gait", "walking"));
  }

  @Test
  void aRatingBesideItsScaleIsRefusedWithTheScale() {
    Session session = walking(ines());
    assertThatThrownBy(() -> session.record(at("2:45"), Readings.rating(25, "rpe_6_20")))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("a step of rpe_6_20 from 6 to 20");
  }

  // With a step below zero 8 bpm more would pass for certainly steady within 5 bpm.
  @Test
  void aStepBelowZeroIsRefused() {
    Session session = walking(ines());
    Reading negative =
        new Reading.Measured(
            "heart_rate",
            Quantity.of(112, Unit.BPM),
            Optional.of(Quantity.of(-8, Unit.BPM)),
            Optional.empty());
    assertRefused(Code.G502, () -> session.record(at("2:00"), negative));
    Reading inKilograms =
        new Reading.Measured(
            "heart_rate",
            Quantity.of(112, Unit.BPM),
            Optional.of(Quantity.of(1, Unit.KILOGRAM)),
            Optional.empty());
    assertRefused(Code.G501, () -> session.record(at("2:00"), inKilograms));
    session.record(at("2:00"), heartRate(112));
  }
}
