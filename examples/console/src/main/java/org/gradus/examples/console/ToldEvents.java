package org.gradus.examples.console;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Times;

/** Events in words, with what can be done about each. */
final class ToldEvents implements Event.Visitor<String> {

  private ToldEvents() {}

  /** An event for the list of what was recorded. */
  static Map<String, Object> of(int number, Event event, Event counted) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("number", number);
    map.put("at", Times.clock(event.at()));
    map.put("words", event.accept(new ToldEvents()));
    map.put("subjects", subjects(counted));
    readings(counted).ifPresent(read -> map.put("readings", read));
    return map;
  }

  /** What of an event can still be taken back. */
  static List<String> subjects(Event event) {
    if (event instanceof Event.Read read) {
      return read.readings().stream().map(Reading::subject).distinct().toList();
    } else if (event instanceof Event.Reported reported) {
      return List.of(reported.sign());
    }
    return event instanceof Event.Done ? List.of(Event.Done.SUBJECT) : List.of();
  }

  private static Optional<List<Map<String, Object>>> readings(Event event) {
    if (!(event instanceof Event.Read read)) {
      return Optional.empty();
    }
    List<Map<String, Object>> values = new ArrayList<>();
    read.readings()
        .forEach(
            reading -> values.add(Map.of("name", reading.subject(), "value", reading.toString())));
    return Optional.of(values);
  }

  @Override
  public String read(Event.Read read) {
    String late = read.taken().equals(read.at()) ? "" : ", taken at " + Times.clock(read.taken());
    return words(read.readings()) + late;
  }

  private static String words(List<Reading> readings) {
    return readings.stream().map(ToldEvents::words).collect(Collectors.joining(", "));
  }

  private static String words(Reading reading) {
    String posture =
        reading instanceof Reading.Baseline before ? before.posture().word() + " " : "";
    return posture + Typed.words(reading.subject()) + " " + reading;
  }

  @Override
  public String reported(Event.Reported reported) {
    return "reported "
        + Typed.words(reported.sign())
        + (reported.grade().isPresent() ? ", grade " + reported.grade().getAsInt() : "");
  }

  @Override
  public String withdrawn(Event.Withdrawn withdrawn) {
    return Typed.words(withdrawn.sign()) + " has gone: " + withdrawn.reason();
  }

  @Override
  public String amended(Event.Amended amended) {
    return "entry "
        + amended.event()
        + " corrected to "
        + words(amended.readings())
        + ": "
        + amended.reason();
  }

  @Override
  public String rejected(Event.Rejected rejected) {
    return Typed.words(rejected.subject())
        + " of entry "
        + rejected.event()
        + " taken back: "
        + rejected.reason();
  }

  @Override
  public String loadSet(Event.LoadSet set) {
    return "really set: " + Typed.words(set.load().name()) + " " + set.load().value();
  }

  @Override
  public String done(Event.Done done) {
    return "the stage is done";
  }

  @Override
  public String followed(Event.Followed followed) {
    return "done as recommended: " + followed.verdict().word();
  }

  @Override
  public String overridden(Event.Overridden overridden) {
    return "decided otherwise: " + overridden.verdict().word() + ", " + overridden.reason();
  }

  @Override
  public String abandoned(Event.Abandoned abandoned) {
    return "broken off: " + abandoned.reason();
  }
}
