package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Sessions.assertRefused;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.bundled.Walks.walking;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A load that a tester tells is possible, or is refused. Worked by hand. */
class SessionLoadsTest {

  private static Loading speed(double amount, Unit unit) {
    return new Loading("speed", Quantity.of(amount, unit));
  }

  @Test
  void aSpeedThatNoTreadmillHasIsRefusedAndTheTestGoesOn() {
    Session session = walking(ines());
    assertThatThrownBy(() -> session.loadSet(at("1:00"), speed(160, Unit.KMH)))
        .isInstanceOfSatisfying(
            ReadingRefused.class, refused -> assertThat(refused.code()).isEqualTo(Code.G502))
        .hasMessageContaining(
            "speed of 160 km/h is outside what is possible, 0 km/h to 25 km/h; read it again");
    assertThat(Loading.line(session.outcome().load())).isEqualTo("1.7 mph, 10 %");
    session.loadSet(at("1:00"), speed(2, Unit.MPH));
    assertThat(Loading.line(session.outcome().load())).isEqualTo("2 mph, 10 %");
  }

  @Test
  void theEndsOfARangeArePossible() {
    Session session = walking(ines());
    session.loadSet(at("1:00"), speed(25, Unit.KMH));
    assertRefused(Code.G502, () -> session.loadSet(at("1:01"), speed(25.01, Unit.KMH)));
    session.loadSet(at("1:01"), speed(0, Unit.KMH));
    session.loadSet(at("1:02"), new Loading("grade", Quantity.of(-20, Unit.PERCENT)));
    assertRefused(
        Code.G502,
        () -> session.loadSet(at("1:03"), new Loading("grade", Quantity.of(-21, Unit.PERCENT))));
  }

  @Test
  void whereARampWouldLeadIsLookedAtToo() {
    Session session = walking(ines());
    Loading.Ramp ramp =
        new Loading.Ramp(
            Quantity.of(5, Unit.PERCENT), Duration.ofMinutes(1), Quantity.of(45, Unit.PERCENT));
    Loading steep = new Loading("grade", Quantity.of(10, Unit.PERCENT), Optional.of(ramp));
    assertRefused(Code.G502, () -> session.loadSet(at("1:00"), steep));
  }

  @Test
  void aTesterWhoDecidesOtherwiseCannotSetWhatCannotBeEither() {
    Session session = walking(ines());
    Verdict fast = new Verdict.Advance("walk_2", List.of(speed(40, Unit.KMH)));
    assertRefused(Code.G502, () -> session.override(at("1:00"), fast, "too easy"));
    Verdict watts =
        new Verdict.Advance("walk_2", List.of(new Loading("speed", Quantity.of(40, Unit.WATT))));
    assertRefused(Code.G501, () -> session.override(at("1:00"), watts, "too easy"));
    Verdict cooling = new Verdict.Finish(List.of(speed(40, Unit.KMH)));
    assertRefused(Code.G502, () -> session.override(at("1:00"), cooling, "enough"));
    Verdict stop = new Verdict.Stop(false, "", List.of(speed(40, Unit.KMH)));
    assertRefused(Code.G502, () -> session.override(at("1:00"), stop, "enough"));
    assertThat(verdict(session.decide(at("1:00")))).startsWith("CONTINUE");
    session.override(at("1:00"), new Verdict.Advance("walk_2"), "too easy");
    assertThat(Loading.line(session.outcome().load())).isEqualTo("2.5 mph, 12 %");
    Session other = Walks.ready(ines());
    assertRefused(
        Code.G502,
        () ->
            other.override(
                at("0:00"),
                new Verdict.Ready("walk_1", List.of(speed(40, Unit.KMH))),
                "as agreed"));
    assertThat(other.phase()).isEqualTo(Phase.BEFORE);
  }
}
