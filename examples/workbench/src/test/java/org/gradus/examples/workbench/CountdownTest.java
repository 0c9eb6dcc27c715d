package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Person;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Firmness;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** What stands above the line that is typed into. */
class CountdownTest {

  private final Session session =
      Session.open(
          Bundled.library().and(Path.of("../own-protocol")).protocol("canal-walk"),
          Person.builder()
              .age(40)
              .sex(Person.Sex.FEMALE)
              .mass(kg(64))
              .cleared(true)
              .lowersHeartRate(false)
              .build());

  private String line(String clock, int columns) {
    Decision decision = session.decide(at(clock));
    return Countdown.line(decision, session.events(), columns);
  }

  private void begin() {
    session.record(
        at("0:30"),
        resting(heartRate(66)),
        resting(pressure(118, 76)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    session.follow(session.decide(at("1:00")));
  }

  @Test
  void beforeTheTestItNamesWhatIsMissing() {
    assertThat(line("0:10", 200))
        .startsWith("0:10 | before the test | missing: resting systolic and ")
        .endsWith(" more");
    begin();
    assertThat(line("1:00", 200)).startsWith("1:00 | step_1 0:00 of 3:00 | decision in 3:00");
  }

  @Test
  void inAStageItCountsDownToTheNextReadingAndToTheDecision() {
    begin();
    // Heart rate each minute, counted for 15 s: the first count runs from 1:45 to 2:00.
    assertThat(line("1:30", 200))
        .isEqualTo("1:30 | step_1 0:30 of 3:00 | decision in 2:30 | heart rate in 0:15");
    assertThat(line("1:50", 200))
        .isEqualTo("1:50 | step_1 0:50 of 3:00 | decision in 2:10 | heart rate now, 0:10 left");
  }

  @Test
  void whatIsDueButMissingIsWaitedForAndThenEnterDoesIt() {
    begin();
    session.record(at("3:00"), heartRate(94));
    assertThat(line("4:05", 200))
        .startsWith("4:05 | step_1 3:05 | waiting ")
        .contains("heart rate");
    session.record(at("4:06"), heartRate(96));
    assertThat(line("4:06", 200)).isEqualTo("4:06 | step_1 3:06 | press Enter to confirm: ADVANCE");
    assertThat(line("4:06", 39)).isEqualTo("4:06 | step_1 3:06 | Enter: ADVANCE");
    session.follow(session.decide(at("4:06")));
    assertThat(line("4:10", 200)).startsWith("4:10 | step_2 0:04 of 3:00");
  }

  @Test
  void aNarrowTerminalLosesWhatMattersLess() {
    begin();
    assertThat(line("1:30", 39)).isEqualTo("1:30 | step_1 0:30/3:00 | decision 2:30");
    assertThat(line("1:30", 38)).isEqualTo("1:30 | step_1 0:30/3:00");
    assertThat(line("1:30", 60)).isEqualTo("1:30 | step_1 0:30 of 3:00 | decision in 2:30");
  }

  private static String line(Phase phase, Verdict verdict) {
    Decision decision =
        new Decision(
            at("1:30"),
            phase,
            Optional.of("step_1"),
            verdict,
            Optional.empty(),
            Firmness.FIRM,
            List.of(),
            List.of(),
            List.of(),
            Agenda.EMPTY,
            0,
            List.of(),
            Optional.empty());
    return Countdown.line(decision, List.of(), 100);
  }

  // A retake of what no reading can settle has nothing to name.
  @Test
  void aMeasureWithNothingInItIsShown() {
    assertThat(line(Phase.STAGE, new Verdict.Measure(List.of(), Optional.empty())))
        .isEqualTo("1:30 | step_1 1:30 | missing: a new reading");
  }

  @Test
  void whatEndsATestAsAnEmergencyIsNotConfirmedByEnter() {
    assertThat(line(Phase.STAGE, new Verdict.Stop(true, "")))
        .endsWith("press Enter to confirm: STOP");
    assertThat(line(Phase.RECOVERY, new Verdict.Stop(true, "")))
        .endsWith("type follow to confirm: STOP");
  }

  @Test
  void longLinesArePartedAtBlanks() {
    assertThat(Wrap.lines("  one two three four five six", 20))
        .containsExactly("  one two three four", "    five six");
    assertThat(Wrap.lines("x".repeat(45), 20)).hasSize(3);
    assertThat(Wrap.lines("short enough for it", 0)).containsExactly("short enough for it");
  }
}
