package org.gradus.session;

import java.time.Duration;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Schedule;
import org.gradus.protocol.Stretch;
import org.gradus.protocol.Timing;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/** Puts the readings of one event where they belong: answers, baselines, slots of stages. */
final class ReadingPlacer {

  private final TestState state;
  private final TestState.Change change;
  private final Event.Read event;
  private final ReadingValidator plausible;
  private final Map<String, StoredReading> answers = new HashMap<>();
  private final Map<String, StoredReading> newest = new HashMap<>();

  ReadingPlacer(TestState state, TestState.Change change, Event.Read event) {
    this.state = state;
    this.change = change;
    this.event = event;
    this.plausible = new ReadingValidator(state.protocol);
  }

  /** Places the readings and returns those that are the newest of their signal. */
  Map<String, StoredReading> place() {
    if (state.phase == Phase.ENDED) {
      throw new ReadingRefused(
          Code.G510,
          SessionMessage.A_READING,
          SessionMessage.AFTER_THE_TEST,
          SessionMessage.NEW_SESSION);
    }
    if (event.taken().compareTo(event.at()) > 0) {
      throw new ReadingRefused(
          Code.G504, subjects(), Times.clock(event.taken()), Times.clock(event.at()));
    }
    List<Reading> sameMoment = state.events.takenAt(event.taken());
    plausible.check(event.readings());
    plausible.checkTogether(sameMoment, event.readings());
    Set<String> told = new HashSet<>();
    for (Reading reading : sameMoment) {
      if (!(reading instanceof Reading.Baseline)) {
        told.add(reading.subject());
      }
    }
    event.readings().forEach(reading -> place(reading, told));
    change.readings = change.readings.withAnswers(answers);
    return newest;
  }

  private List<FileText> subjects() {
    return event.subjects().stream().map(FileText::new).toList();
  }

  private void place(Reading reading, Set<String> told) {
    String subject = reading.subject();
    StoredReading taken = plausible.taken(reading, event.taken());
    boolean answer =
        state.protocol.instruments().questions().containsKey(subject)
            || Attribute.named(subject).isPresent();
    if (subject.equals(Instruments.CLEARED_AFTER_STOP)) {
      afterStopOnly(subject);
      answers.put(subject, taken);
    } else if (answer) {
      beforeOnly(subject);
      answers.put(subject, taken);
    } else if (reading instanceof Reading.Baseline baseline) {
      beforeOnly(subject);
      if (isNewest(change.readings.before(baseline.posture()), subject, taken)) {
        change.readings = change.readings.withBaseline(baseline.posture(), subject, taken);
      }
    } else if (state.phase == Phase.BEFORE) {
      throw new ReadingRefused(
          Code.G510,
          new FileText(subject),
          SessionMessage.BEFORE_THE_TEST,
          SessionMessage.RESTING_OR_UPRIGHT);
    } else if (!told.add(subject)) {
      throw new ReadingRefused(
          Code.G507, new FileText(subject), reading.message(), alreadyTold(subject));
    } else {
      inTest(subject, taken);
    }
  }

  private Message alreadyTold(String subject) {
    Object first =
        Stream.concat(
                state.events.takenAt(event.taken()).stream()
                    .filter(reading -> !(reading instanceof Reading.Baseline)),
                event.readings().stream())
            .filter(reading -> reading.subject().equals(subject))
            .findFirst()
            .<Object>map(Reading::message)
            .orElse(new FileText(subject));
    OptionalInt number = state.events.numberOf(subject, event.taken());
    Message where =
        number.isPresent()
            ? Message.of(SessionMessage.EVENT_NUMBER, number.getAsInt())
            : Message.of(SessionMessage.SAME_EVENT);
    return Message.of(SessionMessage.VALUE_AT, first, Times.clock(event.taken()), where);
  }

  private void afterStopOnly(String subject) {
    if (!state.recovery.stopped() && !state.watches.alarmed()) {
      throw new ReadingRefused(
          Code.G510,
          new FileText(subject),
          SessionMessage.BEFORE_A_STOP,
          SessionMessage.ASKED_AFTER_STOP);
    }
  }

  private void beforeOnly(String subject) {
    if (state.phase != Phase.BEFORE) {
      throw new ReadingRefused(
          Code.G510,
          new FileText(subject),
          SessionMessage.AFTER_THE_TEST_HAS_BEGUN,
          SessionMessage.ASKED_BEFORE_STAGES);
    }
  }

  private static boolean isNewest(
      Map<String, StoredReading> readings, String subject, StoredReading taken) {
    StoredReading last = readings.get(subject);
    return last == null || last.time().compareTo(taken.time()) <= 0;
  }

  private void inTest(String signal, StoredReading taken) {
    boolean recovering = state.phase == Phase.RECOVERY;
    boolean inRecovery =
        recovering
            && taken.time().compareTo(state.recovery.exerciseEnd().orElseThrow()) >= 0
            && !isOfLastSecond(state.currentRun(), signal, taken)
            && !isOfExerciseOnly(signal);
    if (inRecovery) {
      inRecovery(signal, taken);
    } else {
      inStage(signal, taken);
    }
    // A reading taken before the exercise ended says nothing about recovery, but a stop may still
    // hold because of it if nothing newer is known.
    boolean late = recovering && !inRecovery;
    if (!isNewest(late ? change.readings.atFinish() : change.readings.latest(), signal, taken)) {
      return;
    }
    if (late) {
      change.readings = change.readings.withAtFinish(signal, taken);
    } else {
      change.readings = change.readings.withLatest(signal, taken);
    }
    if (!late || !change.readings.latest().containsKey(signal)) {
      newest.put(signal, taken);
    }
  }

  // A signal that is not read in recovery and that no rule asks for there belongs to the exercise:
  // how far somebody ran, how hard it was.
  private boolean isOfExerciseOnly(String signal) {
    Recovery recovery = state.protocol.recovery().orElseThrow();
    return state.protocol.schedule().lineOf(signal).isPresent()
        && recovery.schedule().lineOf(signal).isEmpty()
        && state.protocol.rules().inRecovery().stream()
            .filter(rule -> !rule.isFinish())
            .noneMatch(rule -> Retake.signals(rule, state).contains(signal));
  }

  private void inRecovery(String signal, StoredReading taken) {
    Recovery recovery = state.protocol.recovery().orElseThrow();
    Duration since = taken.time().minus(state.recovery.exerciseEnd().orElseThrow());
    DueSlots slots = DueSlots.ofRecovery(state).orElseThrow();
    slots
        .lineOf(signal)
        .ifPresent(
            line ->
                slots
                    .nearest(line, since)
                    .ifPresent(
                        due ->
                            change.recovery =
                                change.recovery.with(
                                    change
                                        .recovery
                                        .slots()
                                        .with(signal, line, slots.start(), due, taken))));
    named(recovery.schedule(), signal, taken, since, Stretch.of(recovery.atMost()));
    // What counts for the moment the exercise was done can be read a little after it.
    state
        .lastRun()
        .filter(last -> last.done().isPresent())
        .ifPresent(last -> nameIn(state.runs.size() - 1, signal, taken));
  }

  private void inStage(String signal, StoredReading taken) {
    int index = runOf(signal, taken);
    StageRun run = change.runs.get(index);
    Duration since = run.since(taken.time());
    nameIn(index, signal, taken);
    Optional<MeasureLine> line = state.protocol.schedule(run.stage()).lineOf(signal);
    if (line.isEmpty()) {
      return;
    }
    boolean present = state.phase == Phase.STAGE && index == state.runs.size() - 1;
    List<Duration> due =
        present ? dueNow(run, signal, line.get(), since) : List.of(dueThen(run, line.get(), since));
    if (run.isUnderThisLoad(taken)) {
      due.forEach(
          at -> change.replace(index, change.runs.get(index).with(signal, line.get(), at, taken)));
    }
  }

  // A reading in the second in which a stage ends was taken under the load of that stage.
  private boolean isOfLastSecond(StageRun run, String signal, StoredReading taken) {
    Optional<MeasureLine> line = state.protocol.schedule(run.stage()).lineOf(signal);
    if (line.isEmpty() || !taken.time().equals(endOf(run))) {
      return false;
    }
    return dueSlots(run)
        .nearest(line.get(), run.since(taken.time()))
        .filter(due -> run.slot(signal, due).isEmpty())
        .filter(due -> event.at().compareTo(openUntil(run, line.get(), due)) <= 0)
        .isPresent();
  }

  private static Duration openUntil(StageRun run, MeasureLine line, Duration due) {
    return run.start().plus(due).plus(line.late());
  }

  private Duration endOf(StageRun run) {
    int next = state.runs.indexOf(run) + 1;
    return next < state.runs.size()
        ? state.runs.get(next).start()
        : state.recovery.exerciseEnd().orElse(run.end());
  }

  private int runOf(String signal, StoredReading taken) {
    for (int i = state.runs.size() - 1; i >= 0; i--) {
      boolean began = state.runs.get(i).start().compareTo(taken.time()) <= 0;
      if (began) {
        boolean before = i > 0 && isOfLastSecond(state.runs.get(i - 1), signal, taken);
        return before ? i - 1 : i;
      }
    }
    throw new ReadingRefused(
        Code.G510,
        subjects(),
        SessionMessage.BEFORE_THE_FIRST_STAGE,
        SessionMessage.RESTING_BEFORE);
  }

  private DueSlots dueSlots(StageRun run) {
    return DueSlots.of(state.protocol, run);
  }

  // While a decision is overdue a reading counts, whenever it is taken, for every end that lacks
  // it:
  // the stage is decided for the newest end that can be decided. Two due times with one reading
  // are not compared. Once the wait is over it counts for none, but the person still moves and a
  // stop may rest on it.
  private List<Duration> dueNow(StageRun run, String signal, MeasureLine line, Duration since) {
    DueSlots slots = dueSlots(run);
    if (event.at().compareTo(slots.until()) > 0) {
      return List.of();
    }
    boolean overdue = event.taken().compareTo(run.end()) >= 0;
    List<Duration> lacking =
        overdue
            ? run.ends(state.protocol.schedule(run.stage()), event.taken()).stream()
                .flatMap(end -> lacking(slots, line, signal, end).stream())
                .distinct()
                .toList()
            : List.of();
    return lacking.isEmpty() ? slots.nearest(line, since).stream().toList() : lacking;
  }

  // The due time that lacks a reading when a stage is decided: the last one of the line or, where
  // the reading of that one is too old by then, the end itself.
  private static Optional<Duration> lacking(
      DueSlots slots, MeasureLine line, String signal, Duration end) {
    Optional<Duration> last = slots.standing(line, signal, end);
    Optional<StoredReading> taken = last.flatMap(due -> slots.at(signal, due));
    if (taken.isEmpty()) {
      return last;
    }
    return DueSlots.isStale(line, taken.get(), slots.start().plus(end))
        ? Optional.of(end)
        : Optional.empty();
  }

  // A reading of a stage that is over counts for its slot for as long as the schedule allows.
  private Duration dueThen(StageRun run, MeasureLine line, Duration since) {
    Duration taken = event.taken();
    boolean afterwards = taken.compareTo(state.recovery.exerciseEnd().orElse(taken)) > 0;
    DueSlots slots = dueSlots(run);
    Optional<Duration> due =
        afterwards
            ? run.decided().flatMap(decided -> slots.lastDue(line, decided))
            : slots.nearest(line, since);
    Duration over = due.map(at -> openUntil(run, line, at)).orElse(run.end());
    if (due.isEmpty() || event.at().compareTo(over) > 0) {
      throw new ReadingRefused(
          Code.G509, subjects(), Times.clock(event.taken()), Times.clock(over));
    }
    return due.get();
  }

  /**
   * What counts for the moment a stage is done may have been read shortly before anybody said that
   * it was: it is looked for among what was told of that stage.
   */
  static void whenDone(TestState state, TestState.Change change, StageRun done) {
    Duration reached = done.start().plus(done.stretch().lasts());
    List<MeasureLine> lines =
        state.protocol.schedule(done.stage()).lines().stream()
            .filter(line -> line.timing() instanceof Timing.WhenDone)
            .toList();
    Duration widest =
        lines.stream().map(ReadingPlacer::reach).max(Duration::compareTo).orElse(Duration.ZERO);
    for (Event.Read read : state.events.takenSince(reached.minus(widest))) {
      ReadingPlacer placement = new ReadingPlacer(state, change, read);
      for (Reading reading : read.readings()) {
        placement.atDone(reading, lines);
      }
    }
  }

  private static Duration reach(MeasureLine line) {
    return line.over().compareTo(line.within()) > 0 ? line.over() : line.within();
  }

  private void atDone(Reading reading, List<MeasureLine> lines) {
    int last = change.runs.size() - 1;
    StageRun run = change.runs.get(last);
    Duration since = run.since(event.taken());
    for (MeasureLine line : lines) {
      boolean told = line.reads(reading.subject()) && !since.isNegative();
      Optional<Duration> due = told ? dueSlots(run).nearest(line, since) : Optional.empty();
      boolean near =
          due.filter(at -> at.minus(since).abs().compareTo(reach(line)) <= 0).isPresent();
      if (near) {
        StoredReading taken = plausible.taken(reading, event.taken());
        change.replace(last, run.with(reading.subject(), line, due.get(), taken));
        run = change.runs.get(last);
        nameIn(last, reading.subject(), taken);
      }
    }
  }

  // A name belongs to the stage in which it is read; outside it stands for the newest.
  private void nameIn(int index, String signal, StoredReading taken) {
    StageRun run = change.runs.get(index);
    Schedule schedule = state.protocol.schedule(run.stage());
    Duration since = run.since(taken.time());
    named(schedule, signal, taken, since, run.stretch());
    Map<String, StoredReading> own =
        named(run.named(), schedule, signal, taken, since, run.stretch());
    if (own != run.named()) {
      change.replace(index, run.withNamed(own));
    }
  }

  private void named(
      Schedule schedule, String signal, StoredReading taken, Duration since, Stretch lasts) {
    change.readings =
        change.readings.withNamed(
            named(change.readings.named(), schedule, signal, taken, since, lasts));
  }

  private static Map<String, StoredReading> named(
      Map<String, StoredReading> before,
      Schedule schedule,
      String signal,
      StoredReading taken,
      Duration since,
      Stretch lasts) {
    Map<String, StoredReading> named = before;
    for (MeasureLine line : schedule.lines()) {
      if (line.reads(signal) && line.named().isPresent()) {
        for (Duration due : line.due(lasts, since.plus(line.within()))) {
          if (due.minus(since).abs().compareTo(line.within()) <= 0) {
            Duration at = taken.time().plus(due).minus(since);
            named = nearest(named, line.named().get(), taken, at);
          }
        }
      }
    }
    return named;
  }

  // The nearest of several readings counts; of two that are equally near, the later one.
  private static Map<String, StoredReading> nearest(
      Map<String, StoredReading> named, String name, StoredReading taken, Duration due) {
    Duration apart = due.minus(taken.time()).abs();
    StoredReading other = named.get(name);
    return other == null || due.minus(other.time()).abs().compareTo(apart) >= 0
        ? PersistentCollections.with(named, name, taken)
        : named;
  }
}
