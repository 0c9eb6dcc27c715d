package org.gradus.examples.workbench;

import java.util.List;
import java.util.stream.Collectors;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.session.Times;

/** Events in words. */
final class Told {

  private Told() {}

  static String line(Event event) {
    if (event instanceof Event.Read read) {
      String late = read.taken().equals(read.at()) ? "" : " taken at " + Times.clock(read.taken());
      return read.readings().stream().map(Told::line).collect(Collectors.joining(", ")) + late;
    } else if (event instanceof Event.Reported reported) {
      String grade = reported.grade().isPresent() ? " " + reported.grade().getAsInt() : "";
      return "reported " + reported.sign() + grade;
    } else if (event instanceof Event.Followed followed) {
      return "followed " + followed.verdict().word();
    } else if (event instanceof Event.Overridden overridden) {
      return "overridden by " + overridden.verdict().word() + ": " + overridden.reason();
    }
    return rare(event);
  }

  private static String rare(Event event) {
    if (event instanceof Event.Done) {
      return "the stage is done";
    } else if (event instanceof Event.LoadSet set) {
      return "set " + set.load().name() + " " + Loading.line(List.of(set.load()));
    } else if (event instanceof Event.Withdrawn withdrawn) {
      return "withdrew " + withdrawn.sign() + ": " + withdrawn.reason();
    } else if (event instanceof Event.Amended amended) {
      return "amended event "
          + amended.event()
          + " to "
          + amended.readings().stream().map(Told::line).collect(Collectors.joining(", "))
          + ": "
          + amended.reason();
    } else if (event instanceof Event.Rejected rejected) {
      return "undid "
          + rejected.subject()
          + " of event "
          + rejected.event()
          + ": "
          + rejected.reason();
    } else if (event instanceof Event.Abandoned abandoned) {
      return "broken off: " + abandoned.reason();
    }
    return event.toString();
  }

  private static String line(Reading reading) {
    return posture(reading) + reading.subject() + " " + reading;
  }

  private static String posture(Reading reading) {
    return reading instanceof Reading.Baseline before ? before.posture().word() + " " : "";
  }
}
