package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Stops that begin between two events are found by whoever asks later. */
class AskedLateTest {

  @Test
  void aHostIsToldWhenToAskAgain() {
    Session walk = Slope.walk("{ id: once, rule: stop when test.time = 1.75 min }");
    assertThat(walk.changesAt(at("0:10"))).contains(at("1:45"));
    Session plain = Slope.walk("{ id: fast, rule: stop when heart_rate > 150 bpm, confirm: 20 s }");
    assertThat(plain.changesAt(at("0:10"))).contains(at("2:00"));
    plain.record(at("0:30"), heartRate(160));
    assertThat(plain.changesAt(at("0:30"))).contains(at("0:50"));
  }

  @Test
  void aClockThatCannotMakeARuleHoldIsNoReasonToAskAgain() {
    String slow =
        "{ id: slow, rule: stop when stage.time >= 1 min and heart_rate < 80 bpm, confirm: 20 s }";
    Session fast = Slope.walk(slow);
    fast.record(at("0:30"), heartRate(100));
    assertThat(fast.changesAt(at("0:30"))).contains(at("2:00"));
    Session slower = Slope.walk(slow);
    slower.record(at("0:30"), heartRate(70));
    assertThat(slower.changesAt(at("0:30"))).contains(at("1:00"));
    Session unread = Slope.walk(slow);
    assertThat(unread.changesAt(at("0:30"))).contains(at("1:00"));
  }

  @Test
  void whatThereIsToDoIsThatOfTheMomentWheneverItIsAskedFor() {
    Session walk = Slope.walk("{ id: fast, rule: stop when heart_rate > 150 bpm }");
    Decision askedLate = walk.decide(at("0:10"));
    Decision askedAtOnce = walk.decide(at("0:10"));
    Agenda then = askedAtOnce.agenda();
    Optional<Duration> changes = askedAtOnce.changesAt();
    walk.record(at("1:00"), heartRate(120));
    assertThat(walk.decide(at("1:30")).agenda()).isNotEqualTo(then);
    assertThat(askedLate.agenda()).isEqualTo(then).isSameAs(askedLate.agenda());
    assertThat(askedLate.changesAt()).isEqualTo(changes);
    assertThat(askedLate).isEqualTo(askedAtOnce);
  }

  private static void stopsFrom(Session session, Duration moment, String rule) {
    assertThat(rule(session.decide(moment.minusNanos(1)))).isNotEqualTo("STOP " + rule);
    for (Duration later : List.of(Duration.ZERO, Duration.ofMillis(1), at("0:01"), at("20:00"))) {
      assertThat(rule(session.decide(moment.plus(later)))).isEqualTo("STOP " + rule);
    }
  }

  private static String rule(Decision decision) {
    return decision.verdict().word() + decision.because().map(why -> " " + why.rule()).orElse("");
  }

  @Test
  void aStopBetweenTwoSecondsIsKept() {
    stopsFrom(
        Slope.walk("{ id: short, rule: \"stop when stage.time between 60.2 s and 60.8 s\" }"),
        Duration.ofMillis(60_200),
        "short");
  }

  @Test
  void aStopThatHoldsForOneThousandthOfASecondIsKept() {
    stopsFrom(Slope.walk("{ id: once, rule: stop when test.time = 1.75 min }"), at("1:45"), "once");
    stopsFrom(
        Slope.walk("{ id: once, rule: \"stop when test.time = 77.777 s\" }"),
        Duration.ofMillis(77_777),
        "once");
  }

  @Test
  void aStopBeyondTheTimeThatIsWaitedForIsKept() {
    stopsFrom(
        Slope.walk("{ id: late, rule: \"stop when stage.time between 300.5 s and 310 s\" }"),
        Duration.ofMillis(300_500),
        "late");
  }

  @Test
  void aStopIsKeptWhateverTheFractionOfTheSecondOfTheEventBefore() {
    Session session =
        Slope.walk("{ id: short, rule: \"stop when stage.time between 60.5 s and 61.4 s\" }");
    session.record(Duration.ofMillis(10_700), heartRate(100));
    stopsFrom(session, Duration.ofMillis(60_500), "short");
  }

  @Test
  void whatWaitsForASecondReadingWaitsFromTheVeryMomentOnAtWhichItHolds() {
    Session session =
        Slope.walk(
            "{ id: slow, rule: \"stop when stage.time >= 60.3 s and heart_rate < 80 bpm\","
                + " confirm: 20 s }");
    session.record(at("0:30"), heartRate(70));
    assertThat(rule(session.decide(Duration.ofMillis(60_300)))).isEqualTo("MEASURE slow");
    stopsFrom(session, Duration.ofMillis(80_300), "slow");
  }

  @Test
  void oneSecondInADayIsFoundAtOnce() {
    Session session =
        Slope.walk("{ id: day, rule: \"stop when test.time between 80000.2 s and 80000.6 s\" }");
    assertThat(rule(session.decide(Duration.ofHours(24)))).isEqualTo("STOP day");
  }
}
