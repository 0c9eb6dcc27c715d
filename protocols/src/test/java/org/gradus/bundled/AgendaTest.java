package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.protocol.Sign;
import org.gradus.session.Agenda;
import org.gradus.session.Agenda.State;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.junit.jupiter.api.Test;

/** What there is to do until the next decision of the standard walk. */
class AgendaTest {

  private static Agenda agenda(Session session, String time) {
    return session.decide(at(time)).agenda();
  }

  private static List<String> shown(Agenda agenda) {
    return agenda.items().stream()
        .map(
            item ->
                String.join("/", item.names())
                    + " "
                    + Times.clock(item.begin())
                    + "-"
                    + Times.clock(item.due())
                    + (item.state() == State.AHEAD ? "" : " " + item.state()))
        .toList();
  }

  @Test
  void pulseComesBeforeCuffBeforeRatingAndACountEndsOnTheMinute() {
    assertThat(shown(agenda(Walks.walking(ines()), "0:10")))
        .containsExactly(
            "heart_rate 0:45-1:00",
            "heart_rate 1:45-2:00",
            "systolic/diastolic 2:15-2:15",
            "rpe 2:45-2:45",
            "gait 2:45-2:45",
            "heart_rate 2:45-3:00");
  }

  @Test
  void whatIsDueAndWhatWasMissedIsSaid() {
    Session session = Walks.walking(ines());
    session.record(at("2:00"), heartRate(104));
    assertThat(shown(agenda(session, "2:20")))
        .containsExactly(
            "heart_rate 0:45-1:00 MISSED",
            "systolic/diastolic 2:15-2:15 DUE",
            "rpe 2:45-2:45",
            "gait 2:45-2:45",
            "heart_rate 2:45-3:00");
  }

  @Test
  void openQuestionsAndCuesComeFromTheFiles() {
    Agenda agenda = agenda(Walks.walking(ines()), "1:00");
    assertThat(agenda.questions())
        .extracting(Sign::prompt)
        .contains("How is the breathing?", "Dizzy or light-headed?");
    assertThat(agenda.cues())
        .extracting(cue -> Times.clock(cue.at()))
        .containsExactly("2:10", "2:30");
  }
}
