package org.gradus.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeSet;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.AuthorNotes.Usual;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Signal;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression.Literal;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * Looks for readings at which rules answer as wanted. The abstract evaluator narrows the box first,
 * and rules out what is impossible; points are then drawn from what is left, mostly near the
 * figures that rules speak of. Seeded, so that a review is the same every time.
 */
final class Sampler {

  private static final int POINTS = 400;
  private static final int ROUNDS = 3;
  private static final long SEED = 20_011;

  private final Protocol protocol;
  private final List<Demand> demands;
  private final Map<Kind, double[]> figures;
  private final boolean ordinary;
  private int points;

  /** A sampler that looks everywhere, also where hardly anybody ever is. */
  Sampler(Protocol protocol) {
    this(protocol, false);
  }

  /**
   * @param ordinary whether only ordinary readings are drawn: nothing missing that can be known,
   *     nothing reported, everything within what is usual, unless a rule asks for more
   */
  Sampler(Protocol protocol, boolean ordinary) {
    this.ordinary = ordinary;
    this.protocol = protocol;
    this.demands = protocol.wiring().layout().demands();
    this.figures = figures(protocol);
  }

  /** An answer that is wanted of a condition. */
  record Wanted(Condition condition, boolean answer) {
    private boolean isPossible(Box box) {
      Outcomes outcomes = condition.outcomes(box);
      return answer ? outcomes.canHold() : outcomes.canFail();
    }

    private Box narrow(Box box) {
      return answer ? condition.whereItHolds(box) : condition.whereItFails(box);
    }

    private boolean isGiven(Frame frame) {
      return condition.test(frame) == (answer ? Truth.TRUE : Truth.FALSE);
    }
  }

  private static Map<Kind, double[]> figures(Protocol protocol) {
    Map<Kind, Set<Double>> all = new LinkedHashMap<>();
    for (ProtocolParts.Grouped grouped : ProtocolParts.rules(protocol)) {
      grouped
          .rule()
          .rule()
          .condition()
          .ifPresent(
              when -> {
                add(when.anatomy().figures(), all);
                when.anatomy().definitions().values().forEach(inner -> add(inner, all));
              });
    }
    for (Setting setting : protocol.settings().values()) {
      if (setting.value() instanceof Setting.Figure figure) {
        all.computeIfAbsent(figure.quantity().kind(), kind -> new TreeSet<>())
            .add(figure.quantity().base());
      }
    }
    Map<Kind, double[]> figures = new LinkedHashMap<>();
    all.forEach(
        (kind, some) ->
            figures.put(kind, some.stream().mapToDouble(Double::doubleValue).toArray()));
    return figures;
  }

  private static void add(List<Literal> literals, Map<Kind, Set<Double>> all) {
    for (Literal literal : literals) {
      all.computeIfAbsent(literal.quantity().kind(), kind -> new TreeSet<>())
          .add(literal.quantity().base());
    }
  }

  /** How many points were drawn so far. */
  int points() {
    return points;
  }

  /** Readings in a box at which all conditions answer as wanted, if any were found. */
  Optional<Frame> find(Box box, List<Wanted> wanted) {
    Box narrowed = box;
    for (int round = 0; round < 2; round++) {
      for (Wanted want : wanted) {
        if (!want.isPossible(narrowed)) {
          return Optional.empty();
        }
        narrowed = want.narrow(narrowed);
      }
    }
    SplittableRandom random = new SplittableRandom(SEED);
    for (int i = 0; i < POINTS; i++) {
      points++;
      Optional<Frame> frame = draw(narrowed, random);
      if (frame.isPresent() && wanted.stream().allMatch(want -> want.isGiven(frame.get()))) {
        return frame;
      }
    }
    return Optional.empty();
  }

  /** Readings somewhere in a box; empty when those drawn do not go together. */
  Optional<Frame> draw(Box box, SplittableRandom random) {
    Frame frame = new Frame(protocol.wiring().layout());
    for (int slot = 0; slot < demands.size(); slot++) {
      if (!isBeside(demands.get(slot))) {
        fill(frame, slot, box.cell(slot), random);
      }
    }
    for (int slot = 0; slot < demands.size(); slot++) {
      if (isBeside(demands.get(slot))) {
        fill(frame, slot, box.cell(slot), random);
      }
    }
    return goTogether(frame) ? Optional.of(frame) : Optional.empty();
  }

  // What looks back is drawn near to what is there now.
  private static boolean isBeside(Demand demand) {
    return switch (demand.aspect()) {
      case EARLIER, AVERAGE, HIGHEST, LOWEST -> true;
      case VALUE, EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED ->
          false;
    };
  }

  private void fill(Frame frame, int slot, Cell cell, SplittableRandom random) {
    boolean missing =
        cell.presence() == Presence.UNKNOWN
            || (cell.presence() == Presence.MAYBE && isLeftOut(demands.get(slot), random));
    if (missing) {
      frame.miss(slot, Gap.now(demands.get(slot).subject(), Gap.Cause.NEVER_TAKEN));
    } else if (cell instanceof Cell.Options options) {
      boolean quiet = ordinary && (options.options() & 1) != 0 && !isChoice(demands.get(slot));
      frame.set(slot, quiet ? 0 : option(options.options(), random), 0);
    } else {
      frame.set(slot, number(frame, demands.get(slot), (Cell.Range) cell, random), 0);
    }
  }

  // A measured maximum is rare, and without it the prediction is used.
  private boolean isLeftOut(Demand demand, SplittableRandom random) {
    return ordinary
        ? demand.subject().equals(Attribute.MEASURED_MAX_HEART_RATE.word())
        : random.nextInt(4) == 0;
  }

  private static boolean isChoice(Demand demand) {
    return demand.type() instanceof Type.Choice;
  }

  private static int option(long options, SplittableRandom random) {
    int count = Long.bitCount(options);
    int which = count == 0 ? 0 : random.nextInt(count);
    long left = options;
    for (int i = 0; i < which; i++) {
      left &= left - 1;
    }
    return Long.numberOfTrailingZeros(left == 0 ? 1 : left);
  }

  private double number(Frame frame, Demand demand, Cell.Range range, SplittableRandom random) {
    double step = Grain.step(protocol, demand);
    double wanted = isBeside(demand) ? beside(frame, demand, step, random) : Double.NaN;
    if (Double.isNaN(wanted)) {
      wanted = alone(demand, range, step, random);
    }
    double rounded = Math.rint(wanted / step) * step;
    double inside = rounded >= range.low() && rounded <= range.high() ? rounded : wanted;
    return Math.max(range.low(), Math.min(range.high(), inside));
  }

  private double beside(Frame frame, Demand demand, double step, SplittableRandom random) {
    int now = demands.indexOf(Demand.value(demand.subject(), demand.type()));
    if (now < 0 || !frame.isKnown(now) || random.nextInt(10) == 0) {
      return Double.NaN;
    }
    double[] near = figuresOf(demand);
    double away = (random.nextInt(25) - 12) * step;
    if (near.length > 0 && random.nextBoolean()) {
      double figure = near[random.nextInt(near.length)];
      double edge = figure + (random.nextInt(3) - 1) * step;
      away =
          figure * 3 < Math.abs(frame.value(now)) ? edge * (random.nextBoolean() ? 1 : -1) : away;
    }
    return switch (demand.aspect()) {
      case HIGHEST -> frame.value(now) + Math.abs(away);
      case LOWEST -> frame.value(now) - Math.abs(away);
      case VALUE,
          EARLIER,
          AVERAGE,
          EVER,
          COUNT,
          COMPLETED,
          LINE_MEAN_X,
          LINE_MEAN_Y,
          LINE_SLOPE,
          INTERPOLATED ->
          frame.value(now) + away;
    };
  }

  private double alone(Demand demand, Cell.Range range, double step, SplittableRandom random) {
    double[] near = figuresOf(demand);
    int dice = ordinary ? ROUNDS * 4 : random.nextInt(ROUNDS * 4);
    if (near.length > 0 && dice < ROUNDS * 2) {
      double edge = near[random.nextInt(near.length)] + (random.nextInt(3) - 1) * step;
      if (edge >= range.low() && edge <= range.high()) {
        return edge;
      }
    }
    double low = Math.max(range.low(), Grain.low(protocol, demand, near));
    double high = Math.min(range.high(), Grain.high(protocol, demand, near));
    if (low > high) {
      low = Double.isInfinite(range.low()) ? range.high() : range.low();
      high = Double.isInfinite(range.high()) ? range.low() : range.high();
    }
    boolean end = !ordinary && dice < ROUNDS * 2 + 2;
    return end ? (random.nextBoolean() ? low : high) : low + random.nextDouble() * (high - low);
  }

  private double[] figuresOf(Demand demand) {
    return demand.type() instanceof Type.Measure measure
        ? figures.getOrDefault(measure.kind(), new double[0])
        : new double[0];
  }

  // The lower of two readings that are taken together lies below the upper one.
  private boolean goTogether(Frame frame) {
    for (Signal signal : protocol.instruments().signals().values()) {
      if (signal.below().isPresent()) {
        int low = demands.indexOf(Demand.value(signal.name(), signal.type()));
        int high = demands.indexOf(Demand.value(signal.below().get(), signal.type()));
        boolean both = low >= 0 && high >= 0 && frame.isKnown(low) && frame.isKnown(high);
        if (both && frame.value(low) >= frame.value(high)) {
          return false;
        }
      }
    }
    return true;
  }

  /** The readings that conditions ask for, in words. */
  String shown(Frame frame, List<Condition> conditions) {
    List<String> parts = new ArrayList<>();
    conditions.stream()
        .flatMap(condition -> condition.demands().stream())
        .distinct()
        .sorted(Comparator.comparing(Demand::subject).thenComparing(Demand::aspect))
        .forEach(demand -> parts.add(Grain.text(protocol, demand, frame)));
    return String.join(", ", parts.stream().filter(part -> !part.isEmpty()).toList());
  }

  /** Within what something usually lies, if the files say so. */
  static Optional<Usual> usual(Protocol protocol, Demand demand) {
    if (demand.aspect() == Aspect.EVER || demand.aspect() == Aspect.COUNT) {
      return Optional.empty();
    }
    Map<String, Usual> usual = protocol.notes().usual();
    Optional<Usual> own = Optional.ofNullable(usual.get(demand.subject()));
    // What is usual in a stage was usual in the one before.
    return own.isEmpty()
            && demand.aspect() == Aspect.VALUE
            && protocol.wiring().fact(demand) instanceof Fact.PreviousReading previous
        ? Optional.ofNullable(usual.get(previous.of()))
        : own;
  }
}
