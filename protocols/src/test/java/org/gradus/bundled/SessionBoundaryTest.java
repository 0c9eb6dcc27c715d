package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Times.at;

import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** What lies on the border between two stages, or between exercise and recovery. */
class SessionBoundaryTest {

  @Test
  void aCuffThatStoppedInTheSecondOfTheAdvanceBelongsToTheStageBefore() {
    Session session = walking(ines(), 108, 110);
    session.follow(session.decide(at("3:00")));
    session.recordTaken(at("3:20"), at("3:00"), pressure(150, 80));
    // 138 is more than 10 mmHg below the 150 of the stage before, and was read once.
    Decision fallen = session.record(at("5:20"), pressure(138, 80));
    assertThat(fallen.verdict()).isInstanceOf(Verdict.Measure.class);
  }

  @Test
  void aHighPressureThatWaitsForASecondReadingIsNotForgottenWhenTheExerciseEnds() {
    Session session = walking(ines());
    session.record(at("2:15"), pressure(252, 90));
    Decision finish = session.record(at("2:45"), rating(18, "rpe_6_20"));
    assertThat(finish.verdict()).isInstanceOf(Verdict.Finish.class);
    session.follow(finish);
    assertThat(session.decide(at("2:50")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(session.decide(at("3:45")).verdict()).isInstanceOf(Verdict.Stop.class);
    Session calmer = session.fork();
    assertThat(calmer.record(at("3:00"), pressure(196, 84)).verdict())
        .isInstanceOf(Verdict.Continue.class);
    assertThat(calmer.phase()).isEqualTo(Phase.RECOVERY);
  }

  @Test
  void aLoadBelowZeroCannotBeSet() {
    Session session = walking(ines());
    Loading backwards = new Loading("speed", Quantity.of(-3, Unit.MPH));
    assertThatThrownBy(() -> session.loadSet(at("0:30"), backwards))
        .isInstanceOf(ReadingRefused.class)
        .extracting("code")
        .isEqualTo(Code.G502);
    session.record(at("1:00"), heartRate(100));
  }
}
