package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Person;
import org.gradus.report.Report;
import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A reading that the result rests on is waited for; told later it counts, or is refused. */
class LateReadingTest {

  private static final Reading COVERED = measured("covered", Quantity.of(2500, Unit.METRE));

  /** A run whose first second was 0:00. */
  private static Session running() {
    Person person =
        Person.builder().age(30).sex(Person.Sex.MALE).cleared(true).lowersHeartRate(false).build();
    Session session = Session.open(Bundled.library().protocol("run-12min"), person);
    Decision before = session.decide(at("0:00"));
    if (before.verdict() instanceof Verdict.Measure) {
      session.record(
          at("0:00"),
          before.agenda().asks().stream()
              .filter(ask -> ask.needed())
              .map(ask -> answer(ask.name(), false))
              .toArray(Reading[]::new));
    }
    session.override(at("0:00"), new Verdict.Ready("run", List.of()), "ready");
    assertThat(session.phase()).isEqualTo(Phase.STAGE);
    return session;
  }

  private static String estimate(Session session) {
    Estimate estimate = Capacity.of(session.outcome()).estimates().get(0);
    return estimate instanceof Estimate.Available available
        ? available.vo2max().rounded(1).toString()
        : estimate.toString();
  }

  @Test
  void theDistanceIsWaitedForAtTheEndOfTheRun() {
    Session session = running();
    Decision end = session.decide(at("12:00"));
    assertThat(end.verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(((Verdict.Measure) end.verdict()).gaps().toString()).contains("covered");
    Decision told = session.record(at("12:30"), COVERED);
    assertThat(told.verdict()).isInstanceOf(Verdict.Finish.class);
    session.follow(told);
    // 22.351 * 2.5 - 11.288, as the file cites it.
    assertThat(estimate(session)).isEqualTo("44.6 mL/kg/min");
  }

  @Test
  void afterTheWaitTheRunIsFinishedWithoutIt() {
    Session session = running();
    assertThat(session.decide(at("16:59")).verdict()).isInstanceOf(Verdict.Measure.class);
    Decision over = session.decide(at("17:00"));
    assertThat(over.verdict()).isInstanceOf(Verdict.Finish.class);
    assertThat(over.because().orElseThrow().rule()).isEqualTo("done");
  }

  @Test
  void aDistanceToldInRecoveryCounts() {
    Session session = running();
    session.override(at("12:00"), new Verdict.Finish(), "the run is over");
    assertThat(session.phase()).isEqualTo(Phase.RECOVERY);
    session.record(at("12:30"), COVERED, heartRate(150));
    assertThat(estimate(session)).isEqualTo("44.6 mL/kg/min");
    assertThat(Report.of(session).text()).doesNotContain("never taken");
  }

  @Test
  void aDistanceToldTooLateIsRefused() {
    Session session = running();
    session.override(at("12:00"), new Verdict.Finish(), "the run is over");
    ReadingRefused refused =
        catchThrowableOfType(ReadingRefused.class, () -> session.record(at("17:01"), COVERED));
    assertThat(refused.code()).isEqualTo(Code.G509);
    assertThat(refused).hasMessageContaining("covered taken at 17:01");
    // The session goes on.
    assertThat(session.record(at("17:02"), heartRate(100)).phase()).isEqualTo(Phase.RECOVERY);
  }

  @Test
  void aDistanceOfARunThatWasBrokenOffIsRefused() {
    Session session = running();
    session.override(at("8:00"), new Verdict.Finish(), "a cramp");
    ReadingRefused refused =
        catchThrowableOfType(ReadingRefused.class, () -> session.record(at("8:10"), COVERED));
    assertThat(refused.code()).isEqualTo(Code.G509);
  }
}
