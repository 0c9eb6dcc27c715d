package org.gradus.report;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Retold;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** What was read and done, in the order of time, with each reading as it counts in the end. */
final class Course {

  private static final String HEART_RATE = "heart_rate";
  private static final String SYSTOLIC = "systolic";
  private static final String DIASTOLIC = "diastolic";

  private final Outcome outcome;
  private final List<Retold> retold;
  private final List<Event> counted;

  private final Words words;

  Course(Outcome outcome, List<Event> events, Words words) {
    this.words = words;
    this.outcome = outcome;
    this.retold = Retold.of(outcome.protocol(), outcome.person(), events);
    this.counted = Event.counted(events);
  }

  List<Retold> retold() {
    return retold;
  }

  /**
   * A reading that counts.
   *
   * @param taken when it was taken
   * @param reading what was read
   */
  record Told(Duration taken, Reading reading) {}

  /** The readings of a phase, in the order in which they were told. */
  List<Told> readings(Phase phase) {
    List<Told> found = new ArrayList<>();
    for (int i = 0; i < counted.size(); i++) {
      if (counted.get(i) instanceof Event.Read read && retold.get(i).before().phase() == phase) {
        read.readings().forEach(reading -> found.add(new Told(read.taken(), reading)));
      }
    }
    return found;
  }

  /** When the exercise ended and what ended it, once it has. */
  Optional<Retold> end() {
    return retold.stream()
        .filter(told -> told.before().phase() == Phase.STAGE)
        .filter(told -> told.answer().phase() != Phase.STAGE)
        .reduce((first, last) -> last);
  }

  /** What ended the exercise in a word: {@code "FINISH"}. */
  String what(Retold end) {
    return end.event()
        .actedOn()
        .map(verdict -> words.say(verdict.wordMessage()))
        .orElseGet(() -> words.say(ReportMessage.BROKEN_OFF));
  }

  /** Whether it was ended by a stop. */
  static boolean isStop(Retold end) {
    return end.event().actedOn().filter(Verdict.Stop.class::isInstance).isPresent();
  }

  /** Signs that were reported up to an event and neither withdrawn nor taken back before it. */
  List<String> signs(int number) {
    List<String> signs = new ArrayList<>();
    for (int i = 0; i < number; i++) {
      Event event = counted.get(i);
      switch (event.kind()) {
        case REPORTED -> {
          Event.Reported reported = (Event.Reported) event;
          signs.remove(reported.sign());
          if (reported.grade().orElse(1) > 0) {
            signs.add(reported.sign());
          }
        }
        case WITHDRAWN -> signs.remove(((Event.Withdrawn) event).sign());
        case READ, AMENDED, REJECTED, LOAD_SET, DONE, FOLLOWED, OVERRIDDEN, ABANDONED -> {
          // It tells of no sign.
        }
      }
    }
    return signs;
  }

  /** The picture of heart rate against time; empty before the first stage was left. */
  Optional<TimeChart> chart(List<StageRow> stages) {
    if (stages.isEmpty()) {
      return Optional.empty();
    }
    List<TimeChart.Rate> rates = new ArrayList<>();
    List<TimeChart.Pressure> pressures = new ArrayList<>();
    for (Event event : counted) {
      if (event instanceof Event.Read read && !read.taken().minus(start()).isNegative()) {
        measured(read, HEART_RATE)
            .ifPresent(bpm -> rates.add(new TimeChart.Rate(read.taken(), bpm)));
        Optional<Double> systolic = measured(read, SYSTOLIC);
        Optional<Double> diastolic = measured(read, DIASTOLIC);
        if (systolic.isPresent() && diastolic.isPresent()) {
          pressures.add(new TimeChart.Pressure(read.taken(), systolic.get(), diastolic.get()));
        }
      }
    }
    rates.sort(java.util.Comparator.comparing(TimeChart.Rate::at));
    return Optional.of(
        new TimeChart(
            rates,
            pressures,
            stages.stream().map(this::drawn).toList(),
            end().map(end -> new TimeChart.Ended(end.event().at(), what(end))),
            words));
  }

  private Duration start() {
    return outcome.stages().stream()
        .map(StageResult::start)
        .min(Duration::compareTo)
        .orElse(Duration.ZERO);
  }

  private static Optional<Double> measured(Event.Read read, String signal) {
    return read.readings().stream()
        .filter(reading -> reading.subject().equals(signal))
        .filter(Reading.Measured.class::isInstance)
        .map(reading -> ((Reading.Measured) reading).value().base())
        .findFirst();
  }

  private TimeChart.Stage drawn(StageRow row) {
    StageResult stage = row.stage();
    return new TimeChart.Stage(
        words.text(stage.id()),
        words.say(Loading.message(stage.loads())),
        stage.start(),
        stage.start().plus(stage.lasted()),
        row.used());
  }

  /** A time of recovery as it is told: since the exercise ended. */
  String sinceTheEnd(Duration at) {
    return end().map(end -> Times.clock(at.minus(end.event().at()))).orElse("–");
  }
}
