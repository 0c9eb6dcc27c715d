package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.protocol.Person;
import org.gradus.session.Agenda;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** Readings and reminders of one stage only, and readings with names in several stages. */
class StageReadingsTest {

  private static Session begun() {
    Session session =
        Session.open(
            Laboratory.library().protocol("stage-readings"),
            Person.builder().age(30).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static List<String> cues(Session session, Duration time) {
    return session.decide(time).agenda().cues().stream()
        .map(cue -> Times.clock(cue.at()) + " " + cue.say())
        .toList();
  }

  private static List<String> due(Session session, Duration time) {
    return session.decide(time).agenda().items().stream()
        .flatMap((Agenda.Item item) -> item.names().stream())
        .toList();
  }

  private static void drop(Session session, Duration time, double amount) {
    session.record(time, Readings.measured("lactate", Quantity.of(amount, Unit.MMOL_PER_L)));
  }

  private static void cadence(Session session, Duration time, double rpm) {
    session.record(time, Readings.measured("cadence", Quantity.of(rpm, Unit.RPM)));
  }

  private static void ride(Session session, Duration end, double bpm) {
    session.record(end.minusSeconds(10), Readings.heartRate(bpm));
    session.follow(session.decide(end));
  }

  /** Two rides with their pauses, 110 and 130 bpm, 2 and 4 mmol/L. */
  private static Session atTheLast() {
    Session session = begun();
    ride(session, at("1:00"), 110);
    drop(session, at("1:20"), 2);
    session.follow(session.decide(at("1:40")));
    ride(session, at("2:40"), 130);
    drop(session, at("3:00"), 4);
    session.follow(session.decide(at("3:20")));
    return session;
  }

  @Test
  void aReminderComesInItsStagesAndWithItsReading() {
    Session session = begun();
    assertThat(cues(session, at("0:00")))
        .containsExactly("0:10 Keep the wheel turning.", "0:30 Sit up.");
    ride(session, at("1:00"), 110);
    assertThat(cues(session, at("1:00")))
        .containsExactly("1:10 Wipe the first drop away.", "1:30 Sit up.");
  }

  @Test
  void aReminderAboutTheCuffComesInThePausesInWhichItIsRead() {
    assertThat(Bundled.library().protocol("row-steps").cues())
        .filteredOn(cue -> cue.say().contains("cuff"))
        .allSatisfy(cue -> assertThat(cue.in()).contains("pause_1").doesNotContain("row_1"))
        .isNotEmpty();
    // No pressure is read while somebody runs for distance.
    assertThat(Bundled.library().protocol("run-12min").cues())
        .noneMatch(cue -> cue.say().contains("cuff"));
  }

  @Test
  void aStageHasReadingsOfItsOwnBesidesTheCommonOnes() {
    Session session = begun();
    assertThat(due(session, at("0:10"))).containsExactly("heart_rate");
    assertThat(due(atTheLast(), at("3:30"))).containsExactly("cadence", "heart_rate");
  }

  @Test
  void aNameStandsForTheReadingOfItsStage() {
    Session session = atTheLast();
    cadence(session, at("4:00"), 70);
    session.record(at("4:10"), Readings.heartRate(150));
    assertThat(session.decide(at("4:20")).verdict()).isInstanceOf(Verdict.Finish.class);
    session.follow(session.decide(at("4:20")));
    Capacity capacity = Capacity.of(session.outcome());
    // Not 150 bpm, which were read last under that name.
    assertThat(capacity.result("first_rate").orElseThrow().words()).isEqualTo("110 bpm");
    assertThat(capacity.result("cadence_at_the_end").orElseThrow().words()).isEqualTo("70 rpm");
    // Half way from 100 W with 2 mmol/L to 140 W with 4 mmol/L, each read in the pause after it.
    assertThat(capacity.result("power_at_drop").orElseThrow().words()).startsWith("120 W");
  }

  @Test
  void whatCannotBeIsRefused() {
    for (String change :
        List.of(
            "in: where lactate is read -> in: where lactat is read -> did you mean lactate?",
            "in: [ride, last] -> in: [rode, last] -> did you mean ride?",
            "as: last_cadence } -> as: last_cadence, in: [last] } -> leave it out: the line is read in this stage",
            "read: cadence, before_end -> read: cadense, before_end -> did you mean cadence?")) {
      List<String> parts = List.of(change.split(" -> ", -1));
      assertThatThrownBy(() -> Laboratory.library(parts.get(0), parts.get(1)), change)
          .hasMessageContaining(parts.get(2));
    }
  }
}
