package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Schedule;

/** Puts the readings of one event where they belong: answers, baselines, slots of stages. */
final class Placement {

  private final Course course;
  private final Course.Change change;
  private final Event.Read event;

  Placement(Course course, Course.Change change, Event.Read event) {
    this.course = course;
    this.change = change;
    this.event = event;
  }

  void place() {
    if (course.phase == Phase.ENDED) {
      throw new ReadingRefused(Code.G510, "a reading", "after the test", "open a new session");
    }
    if (event.taken().compareTo(event.at()) > 0) {
      throw new ReadingRefused(
          Code.G504, subjects(), Times.clock(event.taken()), Times.clock(event.at()));
    }
    new Plausible(course.protocol).check(event.readings());
    event.readings().forEach(this::place);
  }

  private String subjects() {
    return String.join(", ", event.readings().stream().map(Reading::subject).toList());
  }

  private void place(Reading reading) {
    Taken taken = new Plausible(course.protocol).taken(reading, event.taken());
    boolean answer =
        course.protocol.instruments().questions().containsKey(reading.subject())
            || Attribute.named(reading.subject()).isPresent();
    if (answer) {
      beforeOnly(reading);
      change.answers.put(reading.subject(), taken);
    } else if (reading instanceof Reading.Baseline baseline) {
      beforeOnly(reading);
      change
          .baselines
          .computeIfAbsent(baseline.posture(), posture -> new HashMap<>())
          .put(reading.subject(), taken);
    } else if (course.phase == Phase.BEFORE) {
      throw new ReadingRefused(
          Code.G510,
          reading.subject(),
          "before the test",
          "say whether it is a resting or an upright reading");
    } else {
      refuseDuplicate(reading, taken);
      inTest(reading.subject(), taken);
      Taken last = change.latest.get(reading.subject());
      if (last == null || last.time().compareTo(taken.time()) <= 0) {
        change.latest.put(reading.subject(), taken);
      }
    }
  }

  private void beforeOnly(Reading reading) {
    if (course.phase != Phase.BEFORE) {
      throw new ReadingRefused(
          Code.G510,
          reading.subject(),
          "after the test has begun",
          "it is asked before the first stage");
    }
  }

  private void refuseDuplicate(Reading reading, Taken taken) {
    Taken last = course.latest.get(reading.subject());
    if (last != null && last.time().equals(taken.time())) {
      throw new ReadingRefused(
          Code.G507, reading.subject(), reading.toString(), Times.clock(taken.time()));
    }
  }

  private void inTest(String signal, Taken taken) {
    if (course.phase == Phase.RECOVERY
        && taken.time().compareTo(course.exerciseEnd.orElse(taken.time())) >= 0) {
      Schedule schedule = course.protocol.recovery().orElseThrow().schedule();
      name(
          schedule,
          signal,
          taken,
          taken.time().minus(course.exerciseEnd.orElseThrow()),
          course.protocol.recovery().get().atMost());
      return;
    }
    int index = passageOf(taken);
    Passage passage = course.passages.get(index);
    Duration since = passage.since(taken.time());
    name(course.protocol.schedule(), signal, taken, since, passage.stage().lasts());
    Optional<MeasureLine> line = course.protocol.schedule().lineOf(signal);
    if (line.isEmpty()) {
      return;
    }
    boolean present = course.phase == Phase.STAGE && index == course.passages.size() - 1;
    Optional<Duration> due =
        present ? dueNow(passage, signal, line.get(), since) : dueThen(passage, line.get(), since);
    due.ifPresent(at -> change.replace(index, change.passages.get(index).with(signal, at, taken)));
  }

  private int passageOf(Taken taken) {
    for (int i = course.passages.size() - 1; i >= 0; i--) {
      if (course.passages.get(i).start().compareTo(taken.time()) <= 0) {
        return i;
      }
    }
    throw new ReadingRefused(
        Code.G510,
        subjects(),
        "for a time before the first stage",
        "resting readings are told before it");
  }

  // While a decision is overdue a reading fills the slot that was missed, whenever it is taken.
  private Optional<Duration> dueNow(
      Passage passage, String signal, MeasureLine line, Duration since) {
    Duration limit = passage.waitsUntil(course.protocol.unmeasured());
    if (event.at().compareTo(limit) > 0) {
      throw new ReadingRefused(Code.G509, signal, Times.clock(event.taken()), Times.clock(limit));
    }
    Optional<Duration> missed =
        line.lastDue(passage.stage().lasts(), passage.endInStage())
            .filter(due -> passage.slot(signal, due).isEmpty())
            .filter(due -> event.taken().compareTo(passage.end()) >= 0);
    return missed.or(() -> nearest(passage, line, since));
  }

  // A reading of a stage that is over counts for its slot for as long as the schedule allows.
  private Optional<Duration> dueThen(Passage passage, MeasureLine line, Duration since) {
    Optional<Duration> due = nearest(passage, line, since);
    boolean inTime =
        due.filter(at -> event.at().compareTo(passage.start().plus(at).plus(line.late())) <= 0)
            .isPresent();
    if (!inTime) {
      Duration over =
          due.map(at -> passage.start().plus(at).plus(line.late())).orElse(passage.end());
      throw new ReadingRefused(
          Code.G509, subjects(), Times.clock(event.taken()), Times.clock(over));
    }
    return due;
  }

  private static Optional<Duration> nearest(Passage passage, MeasureLine line, Duration since) {
    Duration last = since.plus(line.within());
    List<Duration> near = new ArrayList<>();
    for (Duration due : line.due(passage.stage().lasts(), last)) {
      boolean early = since.compareTo(due.minus(line.within())) < 0;
      boolean late = since.compareTo(due.plus(line.takes()).plus(line.within())) > 0;
      if (!early && !late) {
        near.add(due);
      }
    }
    return near.stream().min(java.util.Comparator.comparing(due -> due.minus(since).abs()));
  }

  private void name(Schedule schedule, String signal, Taken taken, Duration since, Duration lasts) {
    for (MeasureLine line : schedule.lines()) {
      if (line.reads(signal) && line.named().isPresent()) {
        boolean near =
            line.due(lasts, since.plus(line.within())).stream()
                .anyMatch(due -> due.minus(since).abs().compareTo(line.within()) <= 0);
        if (near) {
          change.named.put(line.named().get(), taken);
        }
      }
    }
  }
}
