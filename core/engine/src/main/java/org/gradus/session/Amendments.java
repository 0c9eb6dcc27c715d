package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/**
 * Readings that were put right, and what was taken back. The state is made anew from all events
 * with each reading as it counts now; what was followed stands.
 */
final class Amendments {

  // Each one replays the test, so that the work would grow with the square of their number.
  private static final int MOST = 1_000;

  private static final Event NOTHING = new Event.Read(List.of(), Duration.ZERO, Duration.ZERO);

  private Amendments() {}

  static StateAt apply(TestState state, Event amendment) {
    if (amendment.at().compareTo(state.now) < 0) {
      throw new ReadingRefused(
          Code.G503,
          SessionMessage.AN_AMENDMENT,
          Times.clock(amendment.at()),
          Times.clock(state.now));
    }
    List<Event> told = new ArrayList<>(state.events.inOrder());
    refuseTooMany(told);
    List<Set<String>> answered = state.events.answered();
    told.add(amendment);
    List<Event> counted = counted(told);
    boolean[] knowing = knowing(told);
    StateAt now = StateAt.after(TestState.begin(state.protocol, state.person));
    for (int i = 0; i < told.size(); i++) {
      // What was done was done on what was known then.
      AnsweredRules act =
          new AnsweredRules(i < answered.size() ? answered.get(i) : Set.of(), knowing[i]);
      now = EventApplier.apply(now.state(), told.get(i), counted.get(i), Optional.of(act));
    }
    return now;
  }

  private static void refuseTooMany(List<Event> told) {
    long before = told.stream().filter(event -> event.corrects().isPresent()).count();
    if (before >= MOST) {
      throw new ReadingRefused(
          Code.G510,
          SessionMessage.A_CORRECTION,
          Message.of(SessionMessage.AFTER_OTHERS, MOST),
          SessionMessage.NOTE_BESIDE);
    }
  }

  // For each event, whether nothing that was told before it was put right after it.
  private static boolean[] knowing(List<Event> told) {
    boolean[] knowing = new boolean[told.size()];
    int earliest = Integer.MAX_VALUE;
    for (int i = told.size() - 1; i >= 0; i--) {
      earliest = Math.min(earliest, told.get(i).corrects().orElse(Integer.MAX_VALUE));
      knowing[i] = earliest > i;
    }
    return knowing;
  }

  /** Events as they count, after what was told about them later. */
  static List<Event> counted(List<Event> told) {
    List<Event> counted = new ArrayList<>(told);
    for (int i = 0; i < told.size(); i++) {
      switch (told.get(i).kind()) {
        case AMENDED -> {
          Event.Amended amended = (Event.Amended) told.get(i);
          for (Reading better : amended.readings()) {
            change(counted, i, amended.event(), better.subject(), List.of(better));
          }
        }
        case REJECTED -> {
          Event.Rejected rejected = (Event.Rejected) told.get(i);
          change(counted, i, rejected.event(), rejected.subject(), List.of());
        }
        case READ, REPORTED, WITHDRAWN, LOAD_SET, DONE, FOLLOWED, OVERRIDDEN, ABANDONED -> {
          // It says nothing about another event.
        }
      }
    }
    return counted;
  }

  private static void change(
      List<Event> counted, int amendment, int number, String subject, List<Reading> by) {
    Event told = number >= 1 && number <= amendment ? counted.get(number - 1) : NOTHING;
    if (told instanceof Event.Read read) {
      counted.set(number - 1, changed(read, number, subject, by));
    } else if (by.isEmpty() && isTakenBack(told, subject)) {
      counted.set(number - 1, new Event.Read(List.of(), told.at(), told.at()));
    } else {
      throw new ReadingRefused(
          Code.G510,
          new FileText(subject),
          Message.of(SessionMessage.OF_EVENT, number),
          SessionMessage.NAME_THE_EVENT);
    }
  }

  // A sign that was reported by mistake, a mile that was not walked yet: as if never told.
  private static boolean isTakenBack(Event told, String subject) {
    return switch (told.kind()) {
      case REPORTED -> ((Event.Reported) told).sign().equals(subject);
      case DONE -> subject.equals(Event.Done.SUBJECT);
      case READ, WITHDRAWN, AMENDED, REJECTED, LOAD_SET, FOLLOWED, OVERRIDDEN, ABANDONED -> false;
    };
  }

  private static Event.Read changed(Event.Read read, int number, String subject, List<Reading> by) {
    List<Reading> readings = new ArrayList<>();
    boolean found = false;
    for (Reading reading : read.readings()) {
      if (reading.subject().equals(subject)) {
        found = true;
        by.forEach(better -> readings.add(like(reading, better)));
      } else {
        readings.add(reading);
      }
    }
    if (!found) {
      throw new ReadingRefused(
          Code.G510,
          new FileText(subject),
          Message.of(SessionMessage.OF_EVENT, number),
          SessionMessage.NO_SUCH_READING);
    }
    return new Event.Read(readings, read.taken(), read.at());
  }

  // A resting reading stays one.
  private static Reading like(Reading first, Reading better) {
    boolean bare = first instanceof Reading.Baseline && !(better instanceof Reading.Baseline);
    return bare ? new Reading.Baseline(((Reading.Baseline) first).posture(), better) : better;
  }
}
