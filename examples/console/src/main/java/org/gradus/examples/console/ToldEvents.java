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
import org.gradus.words.Name;

/** Events in words, with what can be done about each. */
final class ToldEvents implements Event.Visitor<String> {

  private final PageWords words;

  private ToldEvents(PageWords words) {
    this.words = words;
  }

  /** An event for the list of what was recorded. */
  static Map<String, Object> of(int number, Event event, Event counted, PageWords words) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("number", number);
    map.put("at", Times.clock(event.at()));
    map.put("words", event.accept(new ToldEvents(words)));
    map.put("subjects", subjects(counted));
    readings(counted, words).ifPresent(read -> map.put("readings", read));
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

  private static Optional<List<Map<String, Object>>> readings(Event event, PageWords words) {
    if (!(event instanceof Event.Read read)) {
      return Optional.empty();
    }
    List<Map<String, Object>> values = new ArrayList<>();
    read.readings()
        .forEach(
            reading ->
                values.add(
                    Map.of(
                        "name",
                        reading.subject(),
                        "label",
                        words.name(reading.subject()),
                        "value",
                        words.say(reading.message()))));
    return Optional.of(values);
  }

  @Override
  public String read(Event.Read read) {
    String readings = words(read.readings());
    return read.taken().equals(read.at())
        ? readings
        : words.say("{0}, taken at {1}", readings, Times.clock(read.taken()));
  }

  private String words(List<Reading> readings) {
    return readings.stream().map(this::words).collect(Collectors.joining(", "));
  }

  private String words(Reading reading) {
    String said = words.say("{0} {1}", new Name(reading.subject()), reading.message());
    if (reading instanceof Reading.Baseline before) {
      return switch (before.posture()) {
        case RESTING -> words.say("resting {0}", said);
        case UPRIGHT -> words.say("upright {0}", said);
      };
    }
    return said;
  }

  @Override
  public String reported(Event.Reported reported) {
    Name sign = new Name(reported.sign());
    return reported.grade().isPresent()
        ? words.say("reported {0}, grade {1}", sign, reported.grade().getAsInt())
        : words.say("reported {0}", sign);
  }

  @Override
  public String withdrawn(Event.Withdrawn withdrawn) {
    return words.say("{0} has gone: {1}", new Name(withdrawn.sign()), withdrawn.reason());
  }

  @Override
  public String amended(Event.Amended amended) {
    return words.say(
        "entry {0} corrected to {1}: {2}",
        amended.event(), words(amended.readings()), amended.reason());
  }

  @Override
  public String rejected(Event.Rejected rejected) {
    return words.say(
        "{0} of entry {1} taken back: {2}",
        new Name(rejected.subject()), rejected.event(), rejected.reason());
  }

  @Override
  public String loadSet(Event.LoadSet set) {
    return words.say("really set: {0} {1}", new Name(set.load().name()), set.load().value());
  }

  @Override
  public String done(Event.Done done) {
    return words.say("the stage is done");
  }

  @Override
  public String followed(Event.Followed followed) {
    return words.say("done as recommended: {0}", followed.verdict().wordMessage());
  }

  @Override
  public String overridden(Event.Overridden overridden) {
    return words.say(
        "decided otherwise: {0}, {1}",
        overridden.verdict().wordMessage(), words.text(overridden.reason()));
  }

  @Override
  public String abandoned(Event.Abandoned abandoned) {
    return words.say("broken off: {0}", abandoned.reason());
  }
}
