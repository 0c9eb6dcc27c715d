package org.gradus.internal.reach;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Paths;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Type;

/**
 * What is known at the moments at which rules are looked at, with everything told that can be told:
 * boxes for the abstract evaluator. A value may be anything that is possible.
 */
public final class Scene {

  // Holds of unlike lengths make many moments; what is measured repeats long before that.
  private static final int MOST_ENDS = 50;

  private final Protocol protocol;
  private final Paths paths;
  private final Possible possible;
  private final ReadingsAtEnd readings;
  private final Set<String> needed;

  /** The scene of a protocol whose stages are reached on these paths. */
  public Scene(Protocol protocol, Paths paths) {
    this.protocol = protocol;
    this.paths = paths;
    this.possible = new Possible(protocol);
    this.readings = new ReadingsAtEnd(protocol);
    this.needed = protocol.neededAnswers();
  }

  private interface Known {
    Presence of(Fact fact, Demand demand);
  }

  private Box box(Known known) {
    return Box.of(protocol.wiring().layout(), (slot, demand) -> cell(demand, known));
  }

  private Cell cell(Demand demand, Known known) {
    return switch (demand.aspect()) {
      case EVER, COMPLETED -> Box.anything(demand.type());
      case COUNT -> Cell.between(0, protocol.stages().size());
      case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED ->
          Box.anything(demand.type()).with(Presence.MAYBE);
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST -> {
        Fact fact = protocol.wiring().fact(demand);
        yield possible.values(fact, demand.type()).with(known.of(fact, demand));
      }
    };
  }

  /** Before the first stage, when everything that is asked and read there has been told. */
  public Box before() {
    return box((fact, demand) -> isToldBefore(fact) ? Presence.KNOWN : Presence.UNKNOWN);
  }

  private boolean isToldBefore(Fact fact) {
    return switch (fact.dependsOn()) {
      case PERSON -> !(fact instanceof Fact.Baseline baseline) || isRead(baseline);
      case SIGN -> true;
      case READING, LOAD, STAGE, CLOCK, RESULT -> false;
    };
  }

  private boolean isRead(Fact.Baseline baseline) {
    return protocol.baselines().stream()
        .filter(line -> line.posture() == baseline.posture())
        .map(BaselineLine::signals)
        .anyMatch(signals -> signals.contains(baseline.of()));
  }

  /** Any moment at all. */
  public Box anyTime() {
    return box((fact, demand) -> Presence.MAYBE);
  }

  /** Any moment of recovery, which sets loads of its own and has a limit; there has to be one. */
  public Box recovery() {
    Recovery recovery = protocol.recovery().orElseThrow();
    Box box = anyTime();
    List<Demand> demands = protocol.wiring().layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      boolean value = demand.aspect() == Aspect.VALUE;
      Optional<Fact> fact = value ? protocol.wiring().fact(slot) : Optional.empty();
      if (fact.isPresent() && fact.get() instanceof Fact.Load load) {
        box = box.with(slot, loadOf(recovery, load.name(), demand));
      } else if (fact.isPresent()
          && fact.get() instanceof Fact.Clock clock
          && clock.which() == Fact.Clock.Which.RECOVERY_TIME) {
        box = box.with(slot, Cell.between(0, recovery.atMost().toMillis() / 1000.0));
      }
    }
    return box;
  }

  // After a stop with rest nothing is set, whatever the stages of recovery say.
  private Cell loadOf(Recovery recovery, String name, Demand demand) {
    Cell nothing = Box.anything(demand.type()).with(Presence.UNKNOWN);
    Cell.Range around = null;
    for (Stage stage : recovery.stages()) {
      for (Stage.Load load : stage.loads()) {
        if (load.name().equals(name)) {
          Cell.Range planned = planned(load, anyTime());
          around =
              around == null
                  ? planned
                  : new Cell.Range(
                      Math.min(around.low(), planned.low()),
                      Math.max(around.high(), planned.high()),
                      Presence.MAYBE);
        }
      }
    }
    return around == null ? nothing : around.with(Presence.MAYBE);
  }

  /** When a stage is about to begin. */
  public Box start(Stage stage) {
    InStage known = new InStage(stage);
    return withRounds(afterReady(box((fact, demand) -> fact.accept(known))), stage);
  }

  /** When a stage is due to end, held or not, with every scheduled reading taken. */
  public Box end(Stage stage, EndMoment moment) {
    InStage known = new InStage(stage);
    Box box =
        box(
            (fact, demand) ->
                fact instanceof Fact.Read
                    ? readings.presence(demand, stage, moment)
                    : fact.accept(known));
    Box placed = withRounds(withClocks(withLoads(afterReady(box), stage), stage, moment), stage);
    return withCounts(placed);
  }

  /**
   * The moments at which a stage can be due to end, as planned and after each hold, each with the
   * fewest holds that lead to it.
   */
  public Map<EndMoment, Integer> ends(Stage stage) {
    Map<EndMoment, Integer> ends = new LinkedHashMap<>();
    Set<EndMoment> now = new LinkedHashSet<>(Set.of(EndMoment.planned(stage)));
    if (stage.untilDone()) {
      now.add(EndMoment.done());
    }
    for (int held = 0; !now.isEmpty() && ends.size() < MOST_ENDS; held++) {
      for (EndMoment moment : now) {
        ends.put(moment, held);
      }
      Set<EndMoment> next = new LinkedHashSet<>();
      for (ProtocolRule rule : protocol.rulesAtEndOf(stage)) {
        if (isHold(rule.action(), held)) {
          now.forEach(moment -> next.add(moment.after(rule.rule().pause().orElseThrow())));
        }
      }
      next.removeAll(ends.keySet());
      now = next;
    }
    return ends;
  }

  private static boolean isHold(Action action, int held) {
    return action.meant() instanceof Action.Hold hold && hold.times() > held;
  }

  /** What is known when a stage begins: what was told before it, or is told at any time. */
  private final class InStage implements Fact.Visitor<Presence> {

    private final Stage stage;

    private InStage(Stage stage) {
      this.stage = stage;
    }

    @Override
    public Presence read(Fact.Read fact) {
      return Presence.UNKNOWN;
    }

    @Override
    public Presence baseline(Fact.Baseline fact) {
      return Presence.MAYBE;
    }

    @Override
    public Presence previousReading(Fact.PreviousReading fact) {
      return previous(before -> false);
    }

    @Override
    public Presence previousLoad(Fact.PreviousLoad fact) {
      return previous(before -> sets(before, fact.name()));
    }

    // Whether there is a stage before, and whether it is certain that it has what is asked for.
    private Presence previous(Predicate<Stage> has) {
      Set<Stage> before = new LinkedHashSet<>();
      boolean all = !mayBeFirst(stage.place(), before);
      // Begun anew with another load it comes after itself.
      if (changes(stage).findAny().isPresent()) {
        before.add(stage);
      }
      for (Stage one : before) {
        all &= has.test(one);
      }
      return before.isEmpty() ? Presence.UNKNOWN : all ? Presence.KNOWN : Presence.MAYBE;
    }

    // Collects the stages that can be the one before, and says whether there may be none. A pause
    // is none, but those before it are.
    private boolean mayBeFirst(int place, Set<Stage> found) {
      boolean first = paths.canStart(place);
      for (int before : paths.before(place)) {
        Stage one = protocol.stages().get(before);
        if (one.pause()) {
          first |= mayBeFirst(before, found);
        } else {
          found.add(one);
        }
      }
      return first;
    }

    @Override
    public Presence atFinish(Fact.AtFinish fact) {
      return Presence.UNKNOWN;
    }

    @Override
    public Presence named(Fact.Named fact) {
      return Presence.MAYBE;
    }

    @Override
    public Presence load(Fact.Load fact) {
      return Presence.UNKNOWN;
    }

    // While a test warms up its exercise has not begun.
    @Override
    public Presence clock(Fact.Clock fact) {
      return switch (fact.which()) {
        case RECOVERY_TIME -> Presence.UNKNOWN;
        case EXERCISE_TIME -> stage.isCounted() ? Presence.KNOWN : Presence.MAYBE;
        case STAGE, STAGE_NUMBER, STAGE_TIME, TEST_TIME -> Presence.KNOWN;
      };
    }

    @Override
    public Presence round(Fact.Round fact) {
      return Possible.round(fact, stage).presence();
    }

    @Override
    public Presence attribute(Fact.Attribute fact) {
      boolean isNeeded = protocol.eligibility().needs().contains(fact.name());
      return isNeeded ? Presence.KNOWN : Presence.MAYBE;
    }

    @Override
    public Presence answer(Fact.Answer fact) {
      return needed.contains(fact.question()) ? Presence.KNOWN : Presence.MAYBE;
    }

    @Override
    public Presence result(Fact.Result fact) {
      return Presence.MAYBE;
    }

    @Override
    public Presence reported(Fact.Reported fact) {
      return Presence.KNOWN;
    }
  }

  private static boolean sets(Stage stage, String load) {
    return stage.loads().stream().anyMatch(set -> set.name().equals(load));
  }

  // Nobody is in a stage whom a defer has kept from starting.
  private Box afterReady(Box box) {
    Box narrowed = withAges(box);
    for (ProtocolRule rule : protocol.rules().before()) {
      if (rule.action() instanceof Action.Defer && rule.rule().condition().isPresent()) {
        narrowed = rule.rule().condition().get().whereItFails(narrowed);
      }
    }
    return narrowed;
  }

  private Box withAges(Box box) {
    Eligibility eligibility = protocol.eligibility();
    Box narrowed = box;
    if (eligibility.outside() == Eligibility.Outside.DEFER) {
      for (int slot = 0; slot < protocol.wiring().layout().size(); slot++) {
        Demand demand = protocol.wiring().layout().demands().get(slot);
        if (demand.subject().equals(Attribute.AGE.word())) {
          Cell ages = Cell.between(eligibility.youngest(), eligibility.oldest());
          narrowed = narrowed.with(slot, ages.with(box.cell(slot).presence()));
        }
      }
    }
    return narrowed;
  }

  // A ramp may stand anywhere between its ends.
  private static Cell.Range planned(Stage.Load load, Box starting) {
    Cell.Range from = load.value().range(starting);
    if (load.ramp().isEmpty()) {
      return from;
    }
    Cell.Range step = load.ramp().get().step().range(starting);
    Cell.Range to = load.ramp().get().to().range(starting);
    boolean known = Stream.of(from, step, to).allMatch(part -> part.presence() == Presence.KNOWN);
    return new Cell.Range(
        Math.min(from.low(), to.low()),
        Math.max(from.high(), to.high()),
        known ? Presence.KNOWN : Presence.MAYBE);
  }

  private Box withLoads(Box box, Stage stage) {
    Box loaded = box;
    Box starting = start(stage);
    for (Stage.Load load : stage.loads()) {
      Cell planned = planned(load, starting);
      starting = with(load, planned, starting);
      loaded = with(load, changed(load, planned, stage), loaded);
    }
    return loaded;
  }

  // What rules of its end can change may stand anywhere in what is possible.
  private Cell changed(Stage.Load load, Cell planned, Stage stage) {
    return changes(stage).anyMatch(change -> change.load().text().equals(load.name()))
        ? possible.load(load.name(), new Type.Measure(load.unit().kind())).with(planned.presence())
        : planned;
  }

  private Stream<Action.Change> changes(Stage stage) {
    return protocol.rulesAtEndOf(stage).stream()
        .map(ProtocolRule::action)
        .filter(Action.Change.class::isInstance)
        .map(Action.Change.class::cast);
  }

  /** With a component of the load set, on which the components after it may rest. */
  public Box with(Stage.Load load, Cell value, Box box) {
    List<Demand> demands = protocol.wiring().layout().demands();
    Box loaded = box;
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      if (demand.aspect() == Aspect.VALUE && demand.subject().equals(load.name())) {
        loaded = loaded.with(slot, value);
      }
    }
    return loaded;
  }

  // How often a definition held is known once it is known whether it holds now.
  private Box withCounts(Box box) {
    Box counted = box;
    for (int slot = 0; slot < protocol.wiring().layout().size(); slot++) {
      Demand demand = protocol.wiring().layout().demands().get(slot);
      if (demand.aspect() == Aspect.COUNT) {
        boolean open = protocol.wiring().counted(demand).outcomes(box).canBeUnknown();
        counted = counted.with(slot, box.cell(slot).with(open ? Presence.MAYBE : Presence.KNOWN));
      }
    }
    return counted;
  }

  private Box withClocks(Box box, Stage stage, EndMoment moment) {
    double least = moment.isAnyTime() ? 0 : moment.due().toMillis() / 1000.0;
    Box timed = box;
    for (int slot = 0; slot < protocol.wiring().layout().size(); slot++) {
      Demand demand = protocol.wiring().layout().demands().get(slot);
      boolean value = demand.aspect() == Aspect.VALUE;
      if (value && protocol.wiring().fact(demand) instanceof Fact.Clock clock) {
        timed =
            switch (clock.which()) {
              case STAGE -> timed.with(slot, Possible.option(stage.place()));
              case STAGE_NUMBER ->
                  timed.with(slot, Cell.between(stage.isCounted() ? 1 : 0, stage.place() + 1));
              // A tester may have held it for longer than the protocol says.
              case STAGE_TIME -> timed.with(slot, Cell.between(least, Double.POSITIVE_INFINITY));
              default -> timed;
            };
      }
    }
    return timed;
  }

  private Box withRounds(Box box, Stage stage) {
    Box placed = box;
    for (int slot = 0; slot < protocol.wiring().layout().size(); slot++) {
      if (protocol.wiring().fact(slot).orElse(null) instanceof Fact.Round round) {
        placed = placed.with(slot, Possible.round(round, stage));
      }
    }
    return placed;
  }

  /** Whether a demand asks for a reading. */
  public boolean isReading(Demand demand) {
    return switch (demand.aspect()) {
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST ->
          protocol.wiring().fact(demand) instanceof Fact.Read;
      case EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
    };
  }
}
