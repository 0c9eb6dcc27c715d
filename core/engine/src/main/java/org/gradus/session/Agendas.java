package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.Cue;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Timing;
import org.gradus.session.Agenda.Ask;
import org.gradus.session.Agenda.Change;
import org.gradus.session.Agenda.Item;
import org.gradus.session.Agenda.Reminder;
import org.gradus.session.Agenda.State;
import org.gradus.session.Agenda.ToRead;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Works out what there is still to do: before the test, in a stage, in recovery. */
final class Agendas {

  private Agendas() {}

  // These hold on to no more than they need: a host may keep very many decisions.

  /**
   * What to read and to ask before the test, once somebody asks.
   *
   * @param needed the questions without whose answers the test cannot begin
   */
  static Supplier<Agenda> before(StateAt now, Set<String> needed) {
    TestState state = now.state();
    Duration time = now.time();
    return () -> before(state, needed, time);
  }

  /** What there is to do in the present stage until its end, once somebody asks. */
  static Supplier<Agenda> inStage(StateAt now) {
    TestState state = now.state();
    Duration time = now.time();
    return () -> of(state, state.currentRun(), time);
  }

  /** What there is to do in recovery, once somebody asks. */
  static Supplier<Agenda> inRecovery(StateAt now) {
    TestState state = now.state();
    Duration time = now.time();
    return () -> ofRecovery(state, time);
  }

  private static Agenda before(TestState state, Set<String> needed, Duration time) {
    Set<String> unanswered =
        new LinkedHashSet<>(AnswerFiller.open(state, FrameFiller.latest(state, time)));
    unanswered.addAll(needed);
    Set<Item> items = new LinkedHashSet<>();
    for (BaselineLine line : state.protocol.baselines()) {
      List<ToRead> open =
          line.signals().stream()
              .filter(signal -> !state.hasBaseline(line.posture(), signal))
              .map(signal -> toRead(state.protocol, signal, Optional.of(line.posture())))
              .toList();
      if (!open.isEmpty()) {
        State progress = time.compareTo(line.after()) >= 0 ? State.DUE : State.AHEAD;
        items.add(new Item(open, line.after(), line.after(), progress, Optional.of(line.placed())));
      }
    }
    List<Ask> asks =
        unanswered.stream().map(name -> ask(state.protocol, name, needed.contains(name))).toList();
    return new Agenda(
        List.copyOf(items),
        questions(state),
        List.of(),
        asks,
        List.of(),
        Optional.empty(),
        Optional.empty(),
        List.of(),
        Optional.empty());
  }

  // What is asked is a question of the protocol or something about the person that rules need.
  private static Ask ask(Protocol protocol, String name, boolean needed) {
    Question question = protocol.instruments().questions().get(name);
    if (question != null) {
      List<Quantity> options = question.options().stream().map(Question.Offered::value).toList();
      Optional<Unit> unit =
          question
              .range()
              .map(limits -> limits.low().unit())
              .or(() -> options.stream().findFirst().map(Quantity::unit));
      return new Ask(
          name,
          question.prompt(),
          needed,
          question.type(),
          question.type() instanceof Type.Measure measure
              ? unit.or(() -> Optional.of(measure.kind().base()))
              : Optional.empty(),
          question.range(),
          options);
    }
    Attribute attribute = Attribute.named(name).orElseThrow();
    return new Ask(
        name,
        name.replace('_', ' '),
        needed,
        attribute.type(),
        attribute.range().map(limits -> limits.low().unit()),
        attribute.range(),
        List.of());
  }

  private static ToRead toRead(Protocol protocol, String name, Optional<Posture> before) {
    Signal signal = protocol.instruments().signal(name);
    return new ToRead(
        name,
        before,
        signal.type(),
        signal.type() instanceof Type.Measure ? Optional.of(signal.unit()) : Optional.empty(),
        protocol.instruments().scalesOf(name));
  }

  private static List<ToRead> toRead(Protocol protocol, List<String> signals) {
    return signals.stream().map(name -> toRead(protocol, name, Optional.empty())).toList();
  }

  private static Agenda of(TestState state, StageRun run, Duration time) {
    DueSlots slots = DueSlots.of(state.protocol, run);
    return new Agenda(
        items(state, slots, run.endInStage(), time, true),
        questions(state),
        cues(state, run, time),
        List.of(),
        run.loadsFrom(time),
        posture(state, run.stage()),
        step(run, time),
        List.of(),
        whenDone(state, run));
  }

  private static Optional<Agenda.WhenDone> whenDone(TestState state, StageRun run) {
    if (!run.stage().untilDone() || run.done().isPresent()) {
      return Optional.empty();
    }
    List<String> signals =
        state.protocol.schedule(run.stage()).lines().stream()
            .filter(line -> line.timing() instanceof Timing.WhenDone)
            .flatMap(line -> line.signals().stream())
            .distinct()
            .toList();
    return Optional.of(new Agenda.WhenDone(toRead(state.protocol, signals)));
  }

  // What several lines ask for at one moment is read once.
  private static List<Item> items(
      TestState state, DueSlots slots, Duration end, Duration time, boolean missed) {
    Set<Item> items = new LinkedHashSet<>();
    for (MeasureLine line : slots.schedule().lines()) {
      for (Duration due : slots.due(line, end)) {
        Duration at = slots.start().plus(due);
        boolean wanted = missed || progress(line, at, time) != State.MISSED;
        if (wanted && !isDone(slots, line, due)) {
          items.add(item(state.protocol, line, at, time));
        }
      }
    }
    return items.stream().sorted(Comparator.comparing(Item::due)).toList();
  }

  private static boolean isDone(DueSlots slots, MeasureLine line, Duration due) {
    for (String signal : line.signals()) {
      if (slots.at(signal, due).isEmpty()) {
        return false;
      }
    }
    return true;
  }

  // Before the test and in recovery too: a stop counts there, and a sign that nobody asks for is
  // not reported.
  private static List<Sign> questions(TestState state) {
    return state.protocol.instruments().asked();
  }

  private static List<Reminder> cues(TestState state, StageRun run, Duration time) {
    if (state.protocol.cues().isEmpty()) {
      return List.of();
    }
    List<Reminder> cues = new ArrayList<>();
    for (Cue cue : state.protocol.cues()) {
      boolean here = cue.isDueIn(run.stage().id());
      for (Duration due : cue.timing().due(run.stretch(), run.endInStage())) {
        if (here && run.start().plus(due).compareTo(time) >= 0) {
          cues.add(new Reminder(run.start().plus(due), cue.say()));
        }
      }
    }
    cues.sort(Comparator.comparing(Reminder::at));
    return cues;
  }

  private static Optional<Change> step(StageRun run, Duration time) {
    if (!run.isRamp()) {
      return Optional.empty();
    }
    return run.loads().stream()
        .flatMap(load -> load.nextChange(run.since(time)).stream())
        .min(Duration::compareTo)
        .map(run.start()::plus)
        .filter(at -> at.compareTo(run.end()) < 0)
        .map(at -> new Change(at, run.loadsFrom(at)));
  }

  // Recovery is timed from its start.
  private static Agenda ofRecovery(TestState state, Duration time) {
    DueSlots slots = DueSlots.ofRecovery(state).orElseThrow();
    RecoveryStage now = RecoveryStage.at(state, time);
    Optional<Change> next =
        now.place() + 1 < state.recovery.loads().size()
            ? Optional.of(new Change(now.end(), state.recovery.loads().get(now.place() + 1)))
            : Optional.empty();
    return new Agenda(
        items(state, slots, now.end().minus(slots.start()), time, false),
        questions(state),
        List.of(),
        List.of(),
        load(state, time),
        posture(state, now.stage()),
        next,
        Symptoms.open(state),
        Optional.empty());
  }

  private static Optional<String> posture(TestState state, Stage stage) {
    return stage.posture().or(() -> state.protocol.instruments().ergometer().posture());
  }

  /** What is set at a moment, if nothing else is decided until then; nothing outside a test. */
  static List<Loading> load(TestState state, Duration time) {
    return switch (state.phase) {
      case STAGE -> state.currentRun().loadsFrom(time);
      case RECOVERY -> state.recovery.loads().get(RecoveryStage.at(state, time).place());
      case BEFORE, ENDED -> List.of();
    };
  }

  // A count ends when it is due; a cuff is begun when it is due.
  private static State progress(MeasureLine line, Duration due, Duration time) {
    if (time.compareTo(due.plus(line.takes()).plus(line.within())) > 0) {
      return State.MISSED;
    }
    return time.compareTo(due.minus(line.over())) >= 0 ? State.DUE : State.AHEAD;
  }

  private static Item item(Protocol protocol, MeasureLine line, Duration due, Duration time) {
    return new Item(
        toRead(protocol, line.signals()),
        due.minus(line.over()),
        due,
        progress(line, due, time),
        line.posture());
  }
}
