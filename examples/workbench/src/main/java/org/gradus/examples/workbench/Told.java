package org.gradus.examples.workbench;

import java.util.stream.Collectors;
import org.gradus.session.Event;
import org.gradus.session.Times;

/** Events in words. */
final class Told {

  private Told() {}

  static String line(Event event) {
    if (event instanceof Event.Read read) {
      String late = read.taken().equals(read.at()) ? "" : " taken at " + Times.clock(read.taken());
      return read.readings().stream()
              .map(reading -> reading.subject() + " " + reading)
              .collect(Collectors.joining(", "))
          + late;
    } else if (event instanceof Event.Reported reported) {
      return "reported " + reported.sign();
    } else if (event instanceof Event.Followed followed) {
      return "followed " + followed.verdict().word();
    } else if (event instanceof Event.Overridden overridden) {
      return "overridden: " + overridden.verdict().word() + ", " + overridden.reason();
    }
    return event.toString();
  }
}
