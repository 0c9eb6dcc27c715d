package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.protocol.Fact;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Timing;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Condition;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Type;
import org.jspecify.annotations.Nullable;

/**
 * When the answer of a rule changes by itself while nothing is told: clocks run, loads rise,
 * readings leave the span of an average. A rule is evaluated over a whole span of time; where its
 * answer is not the same throughout, the span is halved, down to a billionth of a second. So a stop
 * that holds for a thousandth of a second is found like any other, and a day without changes costs
 * one evaluation.
 *
 * <p>The answer of a rule is its value and the values it could have within the steps of the
 * readings.
 */
final class NextRuleChange {

  // Far more than any rule needs that a person would write. A rule that compares a reading with a
  // clock for hours could need any number.
  private static final int EXACT = 50_000;
  private static final long SECOND = Duration.ofSeconds(1).toNanos();

  private final TestState state;
  private final Map<String, StoredReading> readings;
  private final Frame frame;
  private final Duration time;
  private final long start;
  private int tries;

  private NextRuleChange(
      TestState state, Map<String, StoredReading> readings, Frame frame, Duration time) {
    this.state = state;
    this.readings = readings;
    this.frame = frame;
    this.time = time;
    this.start = time.toNanos();
  }

  /** The values that are looked at for a reading that was read to a step. */
  private enum View {
    /** All that it could be. */
    AROUND,
    /** As it was read. */
    READ,
    /** The least it could be. */
    LEAST,
    /** The most it could be. */
    MOST
  }

  /**
   * How a rule is looked at.
   *
   * @param view the values for readings that were read to a step
   * @param hidden signals whose readings are taken for unknown, to see what a rule rests on
   */
  private record Look(View view, Set<String> hidden) {
    private static final Look AROUND = new Look(View.AROUND, Set.of());

    /**
     * The looks at a rule that tell apart what {@link #AROUND} leaves open. What waits for a second
     * reading waits for that on which it rests.
     */
    private static List<Look> closer(ProtocolRule rule, Condition condition, Wiring wiring) {
      List<Look> looks = new ArrayList<>();
      for (View view : List.of(View.READ, View.LEAST, View.MOST)) {
        looks.add(new Look(view, Set.of()));
      }
      if (rule.confirm().isPresent()) {
        for (Set<String> some :
            new Grounds(condition, new Frame(wiring.layout()), wiring).bySize()) {
          if (!some.isEmpty()) {
            looks.add(new Look(View.READ, some));
          }
        }
      }
      return looks;
    }
  }

  /**
   * What a rule comes to all through a stretch of time, if it is the same all through.
   *
   * @param outcomes what it could come to
   * @param undecided what that hangs on
   */
  private record Answer(Outcomes outcomes, List<String> undecided) {}

  /**
   * The first time after a moment at which one of some rules has another answer, by the latest
   * readings; empty: none has until then.
   *
   * @param until up to when it is looked for, included
   */
  static Optional<Duration> after(StateAt now, List<ProtocolRule> rules, Duration until) {
    TestState state = now.state();
    List<ProtocolRule> moving = moving(state, rules);
    return moving.isEmpty()
        ? Optional.empty()
        : new NextRuleChange(state, state.readings.latest(), now.latest(), now.time())
            .first(moving, until);
  }

  /** The same, by some of the readings. */
  static Optional<Duration> after(
      StateAt now, Map<String, StoredReading> readings, List<ProtocolRule> rules, Duration until) {
    TestState state = now.state();
    List<ProtocolRule> moving = moving(state, rules);
    return moving.isEmpty()
        ? Optional.empty()
        : new NextRuleChange(
                state, readings, FrameFiller.by(readings, state, now.time()), now.time())
            .first(moving, until);
  }

  // Most rules ask for signs and readings only, which time does not change.
  private static List<ProtocolRule> moving(TestState state, List<ProtocolRule> rules) {
    List<ProtocolRule> moving = new ArrayList<>();
    for (ProtocolRule rule : rules) {
      Optional<Condition> condition = rule.rule().condition();
      if (condition.isPresent() && isMoving(state, condition.get())) {
        moving.add(rule);
      }
    }
    return moving;
  }

  private Optional<Duration> first(List<ProtocolRule> moving, Duration until) {
    Optional<Duration> first = Optional.empty();
    for (ProtocolRule rule : moving) {
      Duration before = first.isPresent() ? first.get().minusNanos(1) : until;
      if (before.compareTo(time) > 0) {
        Optional<Duration> found = new Search(rule).first(before);
        first = found.isPresent() ? found : first;
      }
    }
    return first;
  }

  /** Looks for the first change of one condition. */
  private final class Search {

    private final Condition condition;
    private final ProtocolRule rule;
    // Made when first asked for: of most rules it is certain from afar that they do not hold.
    private @Nullable List<Look> closer;
    private final Map<Look, Answer> now = new HashMap<>();

    private Search(ProtocolRule rule) {
      this.condition = rule.rule().condition().orElseThrow();
      this.rule = rule;
    }

    private Optional<Duration> first(Duration until) {
      long found = first(start, until.toNanos());
      return found < 0 ? Optional.empty() : Optional.of(Duration.ofNanos(found));
    }

    // In a stretch of time, both ends included; -1 where there is none.
    private long first(long from, long to) {
      if (isAsNow(from, to)) {
        return -1;
      } else if (from == to) {
        return from;
      } else if (++tries > EXACT && to - from <= SECOND) {
        return isAsNow(from, from) && isAsNow(to, to) ? -1 : to;
      }
      long middle = from + (to - from) / 2;
      long found = first(from, middle);
      return found >= 0 ? found : first(middle + 1, to);
    }

    private boolean isAsNow(long from, long to) {
      Span span = new Span(from, to);
      Answer around = answer(span, Look.AROUND);
      if (!isAsNow(around, from, Look.AROUND)) {
        return false;
      }
      boolean certain = around.outcomes().isCertain();
      // What a rule rests on matters only where it holds.
      if (certain && !around.outcomes().canHold()) {
        return true;
      }
      for (Look look : closer()) {
        // What is certain for all values that readings could have is certain for each.
        boolean known = certain && look.hidden().isEmpty();
        if (!known && !isAsNow(answer(span, look), from, look)) {
          return false;
        }
      }
      return true;
    }

    private List<Look> closer() {
      List<Look> looks = closer;
      if (looks == null) {
        looks = Look.closer(rule, condition, state.protocol.wiring());
        closer = looks;
      }
      return looks;
    }

    // What is the same throughout is the same at the start.
    private boolean isAsNow(Answer answer, long from, Look look) {
      boolean throughout = answer.outcomes().isCertain() && from == start;
      return throughout || answer.equals(now(look));
    }

    private Answer now(Look look) {
      return now.computeIfAbsent(look, some -> answer(new Span(start, start), some));
    }

    private Answer answer(Span span, Look look) {
      Box box = span.box(look);
      Outcomes outcomes = condition.outcomes(box);
      return new Answer(
          outcomes, outcomes.isCertain() ? List.of() : List.copyOf(condition.undecided(box)));
    }
  }

  /** A stretch of time, both ends included. */
  private final class Span {

    private final Duration from;
    private final Duration to;

    private Span(long from, long to) {
      this.from = Duration.ofNanos(from);
      this.to = Duration.ofNanos(to);
    }

    private Box box(Look look) {
      return Box.onDemand(frame.layout(), (slot, demand) -> cell(slot, demand, look));
    }

    private Cell cell(int slot, Demand demand, Look look) {
      if (look.hidden().contains(demand.subject())
          && Grounds.isReading(demand, state.protocol.wiring())) {
        return Box.anything(demand.type()).with(Presence.UNKNOWN);
      }
      return isMoving(state, demand)
          ? moved(slot, demand, look)
          : read(frame, slot, demand, look.view());
    }

    private Cell read(Frame known, int slot, Demand demand, View view) {
      Cell around = Resolution.around(known).cell(slot);
      if (!known.isKnown(slot) || !(demand.type() instanceof Type.Measure)) {
        return around;
      }
      double value = known.value(slot);
      double half = known.halfWidth(slot);
      return switch (view) {
        case AROUND -> around;
        case READ -> Cell.between(value, value);
        case LEAST -> Cell.between(value - half, value - half);
        case MOST -> Cell.between(value + half, value + half);
      };
    }

    private Cell moved(int slot, Demand demand, Look look) {
      View view = look.view();
      if (demand.aspect() == Demand.Aspect.COUNT) {
        return counted(slot, demand, look);
      } else if (demand.aspect() != Demand.Aspect.VALUE) {
        return staysSame(demand, from, to) ? read(shown(), slot, demand, view) : anything(demand);
      }
      Fact fact = state.protocol.wiring().fact(slot).orElseThrow();
      if (fact instanceof Fact.Load && !isOneStage()) {
        return anything(demand);
      }
      double first = value(fact, from);
      double last = value(fact, to);
      return Double.isNaN(first) || Double.isNaN(last)
          ? read(shown(), slot, demand, view)
          : Cell.between(Math.min(first, last), Math.max(first, last));
    }

    private boolean isOneStage() {
      return state.phase != Phase.RECOVERY
          || RecoveryStage.at(state, from).place() == RecoveryStage.at(state, to).place();
    }

    // A count is the same as long as the definition holds, or fails, for the present stage.
    private Cell counted(int slot, Demand demand, Look look) {
      Condition definition = state.protocol.wiring().counted(demand);
      return !isMoving(state, definition) || definition.outcomes(box(look)).isCertain()
          ? read(shown(), slot, demand, look.view())
          : anything(demand);
    }

    private Cell anything(Demand demand) {
      return Box.anything(demand.type()).with(Presence.MAYBE);
    }

    // What is known at the start of the stretch.
    private Frame shown() {
      return from.equals(time) ? frame : FrameFiller.by(readings, state, from);
    }
  }

  // Clocks go one way only, and so do loads in a stage: their ends say what they are in between.
  private double value(Fact fact, Duration at) {
    return switch (fact.dependsOn()) {
      case CLOCK -> FrameFiller.clock(state, at, ((Fact.Clock) fact).which());
      case LOAD -> FrameFiller.load(state, at, ((Fact.Load) fact).name());
      case PERSON, READING, SIGN, STAGE, RESULT ->
          throw new IllegalStateException("time alone does not move " + fact);
    };
  }

  private static boolean isMoving(TestState state, Condition condition) {
    if (!state.protocol.wiring().isMovedByTime(condition)) {
      return false;
    }
    for (Demand demand : condition.demands()) {
      if (isMoving(state, demand)) {
        return true;
      }
    }
    return false;
  }

  private static boolean isMoving(TestState state, Demand demand) {
    return switch (demand.aspect()) {
      case EVER, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
      case EARLIER, AVERAGE, HIGHEST, LOWEST -> true;
      case COUNT -> state.phase == Phase.STAGE;
      case VALUE -> isMoving(state, state.protocol.wiring().fact(demand));
    };
  }

  private static boolean isMoving(TestState state, Fact fact) {
    return switch (fact.dependsOn()) {
      case CLOCK -> true;
      case LOAD ->
          state.phase == Phase.RECOVERY || state.lastRun().filter(StageRun::isRamp).isPresent();
      case PERSON, READING, SIGN, STAGE, RESULT -> false;
    };
  }

  // Whether what looks back at readings sees the same ones all through a stretch of time.
  private boolean staysSame(Demand demand, Duration from, Duration to) {
    Optional<DueSlots> slots =
        state.phase == Phase.RECOVERY
            ? DueSlots.ofRecovery(state)
            : state.lastRun().map(stage -> DueSlots.of(state.protocol, stage));
    Optional<MeasureLine> line = slots.flatMap(read -> read.lineOf(demand.subject()));
    if (line.isEmpty()) {
      return true;
    }
    DueSlots read = slots.orElseThrow();
    Duration span = Duration.ofMillis(Math.round(demand.seconds() * 1000));
    return seesNone(demand, read, line.get(), span, read.since(from))
        || nextDue(demand, read, line.get(), span, read.since(from))
            .filter(next -> next.compareTo(read.since(to)) <= 0)
            .isEmpty();
  }

  // When all that was read lies behind the time that is looked at, time brings nothing into it.
  private static boolean seesNone(
      Demand demand, DueSlots read, MeasureLine line, Duration span, Duration moment) {
    return read.lastDue(line, moment)
        .filter(due -> !read.slots().hasAnyFrom(demand.subject(), due.minus(span)))
        .isPresent();
  }

  // When the next reading is due, or one that was due falls out of the stretch that is averaged.
  private static Optional<Duration> nextDue(
      Demand demand, DueSlots read, MeasureLine line, Duration span, Duration after) {
    Timing timing = line.timing();
    Optional<Duration> next = timing.nextDue(read.stretch(), after);
    if (demand.aspect() != Demand.Aspect.AVERAGE) {
      return next;
    }
    Optional<Duration> out = timing.nextDue(read.stretch(), after.minus(span)).map(span::plus);
    return Stream.concat(next.stream(), out.stream()).min(Duration::compareTo);
  }
}
