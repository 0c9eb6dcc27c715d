package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.util.List;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Person;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Session;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** A load that is typed. The person is invented. */
class LoadsTypedTest {

  private final Session session =
      Session.open(
          Bundled.library().protocol("graded-walk-standard"),
          Person.builder()
              .age(40)
              .sex(Person.Sex.FEMALE)
              .mass(kg(64))
              .cleared(true)
              .lowersHeartRate(false)
              .build());
  private final TypedReadings typed = new TypedReadings(session);

  private void load(String text, String clock) {
    session.loadSet(at(clock), typed.load(text));
  }

  @BeforeEach
  void begin() {
    session.record(
        at("0:00"),
        resting(heartRate(66)),
        resting(pressure(118, 76)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    session.follow(session.decide(at("0:00")));
  }

  private String set() {
    return Loading.line(session.outcome().load());
  }

  @Test
  void aLoadIsSetInItsOwnUnitOrInTheOneThatIsShown() {
    load(" speed 1.6 mph", "0:30");
    assertThat(set()).isEqualTo("1.6 mph, 10 %");
    load(" speed 1.8", "0:40");
    load(" grade 9", "0:41");
    assertThat(set()).isEqualTo("1.8 mph, 9 %");
  }

  @Test
  void whatWasSetIsToldInWords() {
    load(" speed 1.6 mph", "0:30");
    List<Event> told = session.events();
    assertThat(Told.line(told.get(told.size() - 1))).isEqualTo("set speed 1.6 mph");
  }

  // The force is set where a power is, at a cadence, on a cycle that is braked by hand.
  @Test
  void whatItCanBeIsShownForAllThatIsSet() {
    assertThat(Bench.at(0, "show", "cycle-branching").text())
        .contains(
            "pedal_rate 20 rpm to 150 rpm [practice]\n  brake_force 0 kp to 15 kp [practice]\n");
    assertThat(Bench.at(0, "show", "graded-walk-standard").text()).doesNotContain("brake_force");
  }

  @Test
  void whatCannotBeIsNotTaken() {
    assertThatThrownBy(() -> load(" speed 160 km/h", "0:30"))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("0 km/h to 25 km/h");
    assertThatThrownBy(() -> load(" power 100 W", "0:30"))
        .isInstanceOf(ReadingRefused.class)
        .hasMessageContaining("the load of this stage is 1.7 mph, 10 %");
    assertThatThrownBy(() -> load(" speed", "0:30"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("load speed 3.5 mph");
    assertThat(set()).isEqualTo("1.7 mph, 10 %");
  }
}
