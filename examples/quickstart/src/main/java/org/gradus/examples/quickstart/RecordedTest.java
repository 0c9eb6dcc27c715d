package org.gradus.examples.quickstart;

import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.chosen;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.pulse;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.seconds;
import static org.gradus.unit.Quantities.hours;
import static org.gradus.unit.Quantities.kg;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.session.Reading;
import org.gradus.session.Times;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/**
 * A test as somebody wrote it down.
 *
 * @param protocol the id of the protocol
 * @param person the person
 * @param moments the readings in the order they were told
 */
record RecordedTest(String protocol, Person person, List<Moment> moments) {

  /**
   * What was told at one moment.
   *
   * @param at since the start of the session
   * @param told the readings
   * @param isLastOfItsTime whether nothing more is told at the same time
   */
  record Moment(Duration at, List<Reading> told, boolean isLastOfItsTime) {
    Reading[] readings() {
      return told.toArray(new Reading[0]);
    }
  }

  static RecordedTest read(Path file) {
    try {
      return of(Files.readString(file));
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read the recorded test " + file, e);
    }
  }

  static RecordedTest of(String yaml) {
    Entry content = Entry.of(new Load(LoadSettings.builder().build()).loadFromString(yaml));
    List<Entry> events = content.list("events");
    List<Moment> moments = new ArrayList<>();
    for (int i = 0; i < events.size(); i++) {
      String at = events.get(i).text("at");
      boolean last = i + 1 == events.size() || !events.get(i + 1).text("at").equals(at);
      moments.add(new Moment(Times.at(at), readings(events.get(i)), last));
    }
    return new RecordedTest(content.text("protocol"), person(content.entry("person")), moments);
  }

  private static Person person(Entry given) {
    return Person.builder()
        .age((int) given.number("age"))
        .sex(given.text("sex").equals("female") ? Sex.FEMALE : Sex.MALE)
        .mass(kg(given.number("mass_kg")))
        .cleared(given.yes("cleared"))
        .lowersHeartRate(given.yes("lowers_heart_rate"))
        .build();
  }

  private static List<Reading> readings(Entry event) {
    List<Reading> readings = new ArrayList<>();
    if (event.has("answer")) {
      Entry answers = event.entry("answer");
      answers.keys().forEach(question -> readings.add(answered(question, answers)));
    }
    if (event.has("resting")) {
      readings(event.entry("resting")).forEach(reading -> readings.add(resting(reading)));
    }
    if (event.has("beats")) {
      readings.add(pulse((int) event.number("beats"), seconds((long) event.number("over_s"))));
    }
    if (event.has("heart_rate")) {
      readings.add(heartRate(event.number("heart_rate")));
    }
    if (event.has("systolic")) {
      readings.add(pressure(event.number("systolic"), event.number("diastolic")));
    }
    if (event.has("rpe")) {
      readings.add(rating(event.number("rpe"), "rpe_6_20"));
    }
    if (event.has("gait")) {
      readings.add(chosen("gait", event.text("gait")));
    }
    return readings;
  }

  // Questions about hours carry their unit in the key of the recording.
  private static Reading answered(String question, Entry answers) {
    return question.endsWith("_h")
        ? answer(question.substring(0, question.length() - 2), hours(answers.number(question)))
        : answer(question, answers.yes(question));
  }
}
