package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.gradus.protocol.Cue;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Sign;
import org.gradus.session.Agenda.Item;
import org.gradus.session.Agenda.Reminder;
import org.gradus.session.Agenda.State;

/** Works out what there is still to do in a stage. */
final class Agendas {

  private Agendas() {}

  static Agenda of(Course course, Passage passage, Duration time) {
    List<Item> items = new ArrayList<>();
    for (MeasureLine line : course.protocol.schedule().lines()) {
      for (Duration due : line.due(passage.stage().lasts(), passage.endInStage())) {
        boolean done =
            line.signals().stream().allMatch(signal -> passage.slot(signal, due).isPresent());
        if (!done) {
          items.add(item(line, passage.start().plus(due), time));
        }
      }
    }
    items.sort(Comparator.comparing(Item::due));
    List<String> questions =
        course.protocol.instruments().signs().values().stream()
            .filter(Sign::asked)
            .map(Sign::prompt)
            .toList();
    return new Agenda(items, questions, cues(course, passage, time));
  }

  private static List<Reminder> cues(Course course, Passage passage, Duration time) {
    List<Reminder> cues = new ArrayList<>();
    for (Cue cue : course.protocol.cues()) {
      for (Duration due : cue.timing().due(passage.stage().lasts(), passage.endInStage())) {
        if (passage.start().plus(due).compareTo(time) >= 0) {
          cues.add(new Reminder(passage.start().plus(due), cue.say()));
        }
      }
    }
    cues.sort(Comparator.comparing(Reminder::at));
    return cues;
  }

  /** What there is to do in recovery, which is timed from its start. */
  static Agenda ofRecovery(Schedule schedule, Duration start, Duration until, Duration time) {
    List<Item> items = new ArrayList<>();
    for (MeasureLine line : schedule.lines()) {
      for (Duration due : line.due(until.minus(start), until.minus(start))) {
        if (start.plus(due).compareTo(time) > 0) {
          items.add(item(line, start.plus(due), time));
        }
      }
    }
    items.sort(Comparator.comparing(Item::due));
    return new Agenda(items, List.of(), List.of());
  }

  // A count ends when it is due; a cuff is begun when it is due.
  private static Item item(MeasureLine line, Duration due, Duration time) {
    Duration begin = due.minus(line.over());
    Duration last = due.plus(line.takes()).plus(line.within());
    State state =
        time.compareTo(last) > 0
            ? State.MISSED
            : time.compareTo(begin) >= 0 ? State.DUE : State.AHEAD;
    return new Item(line.signals(), begin, due, state);
  }
}
