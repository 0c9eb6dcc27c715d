package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.Cue;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Timing;
import org.gradus.session.Agenda.Ask;
import org.gradus.session.Agenda.Change;
import org.gradus.session.Agenda.Item;
import org.gradus.session.Agenda.Reminder;
import org.gradus.session.Agenda.State;

/** Works out what there is still to do: before the test, in a stage, in recovery. */
final class Agendas {

  private Agendas() {}

  /**
   * What to read and to ask before the test.
   *
   * @param unanswered the questions that are still open
   * @param needed those of them without which the test cannot begin
   */
  static Agenda before(Course course, Set<String> unanswered, Set<String> needed, Duration time) {
    List<Item> items = new ArrayList<>();
    for (BaselineLine line : course.protocol.baselines()) {
      List<String> open =
          line.signals().stream()
              .filter(signal -> !course.hasBaseline(line.posture(), signal))
              .map(signal -> line.posture().word() + "." + signal)
              .toList();
      if (!open.isEmpty()) {
        State state = time.compareTo(line.after()) >= 0 ? State.DUE : State.AHEAD;
        items.add(new Item(open, line.after(), line.after(), state, Optional.of(line.placed())));
      }
    }
    List<Ask> asks =
        unanswered.stream()
            .map(name -> new Ask(name, prompt(course, name), needed.contains(name)))
            .toList();
    return new Agenda(
        items,
        questions(course),
        List.of(),
        asks,
        List.of(),
        Optional.empty(),
        Optional.empty(),
        List.of(),
        Optional.empty());
  }

  private static String prompt(Course course, String name) {
    return course.protocol.instruments().questions().containsKey(name)
        ? course.protocol.instruments().question(name).prompt()
        : name.replace('_', ' ');
  }

  /** What there is to do in a stage until its end. */
  static Agenda of(Course course, Passage passage, Duration time) {
    DueSlots slots = DueSlots.of(course.protocol, passage);
    return new Agenda(
        items(slots, passage.endInStage(), time, true),
        questions(course),
        cues(course, passage, time),
        List.of(),
        passage.loadsFrom(time),
        passage.stage().posture(),
        step(passage, time),
        List.of(),
        whenDone(course, passage));
  }

  private static Optional<Agenda.WhenDone> whenDone(Course course, Passage passage) {
    if (!passage.stage().untilDone() || passage.done().isPresent()) {
      return Optional.empty();
    }
    List<String> signals =
        course.protocol.schedule().lines().stream()
            .filter(line -> line.timing() instanceof Timing.WhenDone)
            .flatMap(line -> line.signals().stream())
            .distinct()
            .toList();
    return Optional.of(new Agenda.WhenDone(signals));
  }

  // What several lines ask for at one moment is read once.
  private static List<Item> items(DueSlots slots, Duration end, Duration time, boolean missed) {
    Set<Item> items = new LinkedHashSet<>();
    for (MeasureLine line : slots.schedule().lines()) {
      for (Duration due : slots.due(line, end)) {
        Item item = item(line, slots.start().plus(due), time);
        if (!isDone(slots, line, due) && (missed || item.state() != State.MISSED)) {
          items.add(item);
        }
      }
    }
    return items.stream().sorted(Comparator.comparing(Item::due)).toList();
  }

  private static boolean isDone(DueSlots slots, MeasureLine line, Duration due) {
    return line.signals().stream().allMatch(signal -> slots.at(signal, due).isPresent());
  }

  // Before the test and in recovery too: a stop counts there, and a sign that nobody asks for is
  // not reported.
  private static List<String> questions(Course course) {
    return course.protocol.instruments().asked();
  }

  private static List<Reminder> cues(Course course, Passage passage, Duration time) {
    if (course.protocol.cues().isEmpty()) {
      return List.of();
    }
    List<Reminder> cues = new ArrayList<>();
    for (Cue cue : course.protocol.cues()) {
      for (Duration due : cue.timing().due(passage.stretch(), passage.endInStage())) {
        if (passage.start().plus(due).compareTo(time) >= 0) {
          cues.add(new Reminder(passage.start().plus(due), cue.say()));
        }
      }
    }
    cues.sort(Comparator.comparing(Reminder::at));
    return cues;
  }

  private static Optional<Change> step(Passage passage, Duration time) {
    if (!passage.changes()) {
      return Optional.empty();
    }
    return passage.loads().stream()
        .flatMap(load -> load.nextChange(passage.since(time)).stream())
        .min(Duration::compareTo)
        .map(passage.start()::plus)
        .filter(at -> at.compareTo(passage.end()) < 0)
        .map(at -> new Change(at, passage.loadsFrom(at)));
  }

  /** What there is to do in recovery, which is timed from its start. */
  static Agenda ofRecovery(Course course, Duration start, Duration until, Duration time) {
    DueSlots slots = DueSlots.ofRecovery(course).orElseThrow();
    RecoveryStage now = RecoveryStage.at(course, time);
    Optional<Change> next =
        now.place() + 1 < course.recoveryLoads.size()
            ? Optional.of(new Change(now.end(), course.recoveryLoads.get(now.place() + 1)))
            : Optional.empty();
    return new Agenda(
        items(slots, until.minus(start), time, false),
        questions(course),
        List.of(),
        List.of(),
        load(course, time),
        now.stage().posture(),
        next,
        Symptoms.open(course),
        Optional.empty());
  }

  /** What is set at a moment, if nothing else is decided until then; nothing outside a test. */
  static List<Loading> load(Course course, Duration time) {
    return switch (course.phase) {
      case STAGE -> course.present().loadsFrom(time);
      case RECOVERY -> course.recoveryLoads.get(RecoveryStage.at(course, time).place());
      case BEFORE, ENDED -> List.of();
    };
  }

  // A count ends when it is due; a cuff is begun when it is due.
  private static Item item(MeasureLine line, Duration due, Duration time) {
    Duration begin = due.minus(line.over());
    Duration last = due.plus(line.takes()).plus(line.within());
    State state =
        time.compareTo(last) > 0
            ? State.MISSED
            : time.compareTo(begin) >= 0 ? State.DUE : State.AHEAD;
    return new Item(line.signals(), begin, due, state, line.posture());
  }
}
