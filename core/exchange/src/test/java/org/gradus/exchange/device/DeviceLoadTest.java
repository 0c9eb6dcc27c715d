package org.gradus.exchange.device;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.kg;
import static org.gradus.unit.Quantities.mph;
import static org.gradus.unit.Quantities.percent;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A machine is joined with a protocol: what it can set, and what was really set. */
class DeviceLoadTest {

  private static final Library LIBRARY = Bundled.library();

  // The ranges of bluetooth-sig-python's tests (MIT), the speed up to 9 km/h.
  private static final DeviceLoad BELT =
      DeviceLoad.of(
          new SupportedRange(Target.SPEED, 100, 900, 10),
          new SupportedRange(Target.GRADE, -150, 150, 5));

  private static Session walk() {
    Person person =
        Person.builder()
            .age(46)
            .sex(Person.Sex.FEMALE)
            .mass(kg(71))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    return Session.open(LIBRARY.protocol("graded-walk-standard"), person);
  }

  // 16 % and more is steeper than 15 %; 5.5 mph is 8.9 km/h, 6 mph is 9.7 km/h.
  @Test
  void stagesThatAMachineCannotSetAreSaidBeforeTheTest() {
    Session session = walk();
    List<Unsettable> problems = BELT.check(session);
    assertThat(problems)
        .map(Unsettable::toString)
        .containsExactly(
            "walk_4: grade: 16 % lies outside -15 % to 15 % by 0.5 %",
            "walk_5: grade: 18 % lies outside -15 % to 15 % by 0.5 %",
            "walk_6: grade: 20 % lies outside -15 % to 15 % by 0.5 %",
            "walk_7: speed: 6 mph lies outside 1 km/h to 9 km/h by 0.1 km/h",
            "walk_7: grade: 22 % lies outside -15 % to 15 % by 0.5 %");
    assertThat(session.events()).as("the session is not changed").isEmpty();
  }

  @Test
  void everyBundledProtocolCanBeChecked() {
    for (String id : LIBRARY.protocols()) {
      Person.Builder person =
          Person.builder()
              .age(LIBRARY.protocol(id).eligibility().youngest() + 1)
              .sex(Person.Sex.MALE)
              .mass(kg(60))
              .height(org.gradus.unit.Quantities.cm(170))
              .cleared(true)
              .lowersHeartRate(false);
      Session session = Session.open(LIBRARY.protocol(id), person.build());
      assertThat(BELT.check(session)).as(id).doesNotContainNull();
    }
  }

  @Test
  void stagesAreCheckedBeforeTheTestOnly() {
    Session session = begun();
    assertThatThrownBy(() -> BELT.check(session)).isInstanceOf(VerdictRefused.class);
  }

  private static Session begun() {
    Session session = walk();
    Decision ready =
        session.record(
            at("0:00"),
            resting(heartRate(68)),
            resting(pressure(122, 78)),
            answer("unwell_today", false),
            answer("recent_event", false),
            answer("pregnant", false));
    session.follow(ready);
    return session;
  }

  // 1.7 mph are 2.736 km/h: 2.7 by steps of 0.1.
  @Test
  void whatWasReallySetIsRecorded() {
    Session session = begun();
    DeviceSetting setting = BELT.round(session.outcome().load());
    assertThat(setting.commands())
        .containsExactly(
            new ControlCommand.Set(Target.SPEED, 270), new ControlCommand.Set(Target.GRADE, 100));
    setting.record(session, at("0:00"));
    Quantity set = Quantity.of(2.7, Unit.KMH);
    assertThat(session.events())
        .last()
        .isEqualTo(new Event.LoadSet(new Loading("speed", set), at("0:00")));
    assertThat(session.outcome().load())
        .containsExactly(new Loading("speed", set), new Loading("grade", percent(10)));
  }

  @Test
  void whatNeedsNoRoundingIsNotRecorded() {
    DeviceLoad fine =
        DeviceLoad.of(SupportedRange.of(Target.GRADE, percent(0), percent(30), percent(1)));
    DeviceSetting setting = fine.round(List.of(new Loading("grade", percent(10))));
    assertThat(setting.rounded()).isEmpty();
    Session session = begun();
    int before = session.events().size();
    assertThat(setting.record(session, at("0:00"))).isEmpty();
    assertThat(session.events()).hasSize(before);
  }

  @Test
  void aComponentWithoutARangeIsSetByHand() {
    DeviceSetting setting = BELT.round(List.of(new Loading("power", Quantity.of(50, Unit.WATT))));
    assertThat(setting.commands()).isEmpty();
    assertThat(setting.unsettable())
        .singleElement()
        .hasToString("power: the machine takes no message for it; set it by hand");
  }

  // A ramp of 1.2 % by steps of 0.5 % is one of 1 %.
  @Test
  void theStepsOfARampAreRounded() {
    Loading ramp =
        new Loading(
            "grade",
            percent(0),
            Optional.of(new Loading.Ramp(percent(1.2), seconds(20), percent(12))));
    assertThat(BELT.round(List.of(ramp)).set())
        .containsExactly(
            new Loading(
                "grade",
                percent(0),
                Optional.of(new Loading.Ramp(percent(1), seconds(20), percent(12)))));
    Loading fine =
        new Loading(
            "grade",
            percent(0),
            Optional.of(new Loading.Ramp(percent(0.1), seconds(20), percent(12))));
    assertThat(BELT.round(List.of(fine)).unsettable())
        .singleElement()
        .asString()
        .contains("finer than those of the machine");
  }

  // No load is off by more than half a step, and none is moved into the range from outside.
  @Property
  void roundingIsToTheNearestStep(@ForAll @DoubleRange(min = 0, max = 8) double speed) {
    DeviceSetting setting = BELT.round(List.of(new Loading("speed", mph(speed))));
    double kmh = mph(speed).in(Unit.KMH);
    if (setting.set().isEmpty()) {
      assertThat(kmh < 1 || kmh > 9).isTrue();
    } else {
      assertThat(Math.abs(setting.set().get(0).value().in(Unit.KMH) - kmh))
          .isLessThanOrEqualTo(0.05 + 1e-9);
    }
  }
}
