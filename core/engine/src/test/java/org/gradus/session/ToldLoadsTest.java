package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Loads that a tester tells, on an invented cycle braked by hand; figures worked by hand. */
class ToldLoadsTest {

  private static final String CYCLE =
      """
      format: 1
      kind: protocol
      id: rising
      version: 1.0.0
      title: An invented ride whose load rises
      ergometer: leg-cycle
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
      loads:
        power: { range: 0 W to 700 W, source: practice }
        pedal_rate: { range: 0 rpm to 150 rpm, source: practice }
        brake_force: { range: 0 kp to 15 kp, source: practice }
      brake: { travel: 6 m, source: practice }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure:
        - { read: heart_rate, each: 1 min, if_missing: go_on }
      stages:
        - id: rise
          lasts: 6 min
          power: { from: 100 W, step: 20 W, every: 30 s, to: 260 W }
          pedal_rate: 50 rpm
        - { id: hard, lasts: 3 min, power: 280 W, pedal_rate: 60 rpm }
      stage_end: [{ id: next, rule: advance }]
      """;

  private final Session session = riding();

  private static Session riding() {
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("rising.yaml", CYCLE))).protocol("rising"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static Quantity watts(double watts) {
    return Quantity.of(watts, Unit.WATT);
  }

  private static Quantity rpm(double rate) {
    return Quantity.of(rate, Unit.RPM);
  }

  private double set(String name, String moment) {
    return session.outcome().load(at(moment)).stream()
        .filter(load -> load.name().equals(name))
        .findFirst()
        .orElseThrow()
        .value()
        .base();
  }

  private static Loading rising(double step, Duration every, double to) {
    return new Loading(
        "power", watts(100), Optional.of(new Loading.Ramp(watts(step), every, watts(to))));
  }

  // 260 W at 50 rpm, 5 m/s along the rim, are 52 N. Against them 60 rpm, 6 m/s, do 312 W.
  @Test
  void whoPedalsFasterAgainstARisingForceDoesMoreAndTheForceGoesOnRising() {
    session.loadSet(at("4:00"), new Loading("pedal_rate", rpm(60)));
    assertThat(set("power", "4:00")).isCloseTo(312, within(1e-9));
    assertThat(set("brake_force", "4:00")).isCloseTo(52, within(1e-9));
  }

  // At 2:00 it is 180 W and 36 N, which 60 rpm turn into 216 W.
  @Test
  void theForceRisesOnAfterAnotherCadence() {
    session.loadSet(at("2:00"), new Loading("pedal_rate", rpm(60)));
    assertThat(set("power", "2:00")).isCloseTo(216, within(1e-9));
    assertThat(set("power", "4:00")).isCloseTo(312, within(1e-9));
  }

  @Test
  void aRampThatLeadsAwayOrTakesNoTimeIsRefused() {
    refused(rising(-20, Duration.ofSeconds(30), 200), "lead away from 200 W");
    refused(rising(20, Duration.ZERO, 200), "have to last a while");
    refused(rising(20, Duration.ofSeconds(-5), 200), "have to last a while");
    assertThat(set("power", "1:00")).isCloseTo(140, within(1e-9));
  }

  private void refused(Loading told, String remedy) {
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> session.loadSet(at("1:00"), told))
        .withMessageContaining(remedy);
  }

  // 600 W at 20 rpm, 2 m/s, would be 300 N: 30.6 kp.
  @Test
  void whatALoadOfAnOverrideComesToHasToBePossibleToo() {
    refusedOverride(
        "30.59 kp", new Loading("power", watts(600)), new Loading("pedal_rate", rpm(20)));
  }

  @Test
  void anOverrideGivesComponentsOfItsStageOnceEach() {
    Loading power = new Loading("power", watts(250));
    refusedOverride("power, pedal_rate", power, power);
    refusedOverride("power, pedal_rate", power, new Loading("grade", Quantity.of(2, Unit.PERCENT)));
    session.override(
        at("5:00"),
        new Verdict.Advance("hard", List.of(power, new Loading("pedal_rate", rpm(60)))),
        "rides strongly");
    assertThat(set("power", "5:00")).isCloseTo(250, within(1e-9));
  }

  private void refusedOverride(String says, Loading... loads) {
    Verdict further = new Verdict.Advance("hard", List.of(loads));
    assertThatExceptionOfType(ReadingRefused.class)
        .isThrownBy(() -> session.override(at("5:00"), further, "rides strongly"))
        .withMessageContaining(says);
  }

  @Test
  void aRecordThatLeadsToNoStageIsRefusedByName() {
    List<Event> events =
        List.of(
            session.events().get(0),
            new Event.Followed(new Verdict.Advance("steep", List.of()), at("6:00")));
    assertThatExceptionOfType(RecordRefused.class)
        .isThrownBy(
            () ->
                Session.resume(
                    session.protocol(),
                    Person.builder().age(40).lowersHeartRate(false).build(),
                    events,
                    Ledger.NONE))
        .withMessageContaining("event 2 of the record")
        .withMessageContaining("ADVANCE to steep")
        .withMessageContaining("recommended then is");
  }
}
