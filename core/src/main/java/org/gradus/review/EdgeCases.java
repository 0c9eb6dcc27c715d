package org.gradus.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gradus.protocol.Paths;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Scene;
import org.gradus.protocol.Stage;
import org.gradus.review.EdgeCase.Side;
import org.gradus.review.Sampler.Wanted;
import org.gradus.rule.Compared;
import org.gradus.rule.Condition;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Truth;
import org.gradus.rule.syntax.Action;
import org.gradus.session.Times;
import org.gradus.unit.Quantity;

/**
 * For every comparison in every rule the readings one step below, on, and one step above its edge,
 * and what the rules of its group make of them: a table to check by hand, and a source of test
 * data.
 *
 * <pre>{@code
 * EdgeCases.of(protocol).forEach(System.out::println);
 * System.out.println(EdgeCases.table(EdgeCases.of(protocol)));
 * }</pre>
 *
 * <p>Everything else is held fixed at readings on which the rule holds, where any were found.
 * Waiting for a second reading and readings that are missing are left to sessions.
 */
public final class EdgeCases {

  private static final int SCAN = 400;
  private static final int HALVINGS = 80;

  private final Protocol protocol;
  private final Sampler sampler;
  private final List<Demand> demands;
  private final List<EdgeCase> cases = new ArrayList<>();

  private EdgeCases(Protocol protocol) {
    this.protocol = protocol;
    this.sampler = new Sampler(protocol, true);
    this.demands = protocol.wiring().layout().demands();
  }

  /** All edge cases of a protocol, in the order of its rules; the same every time. */
  public static List<EdgeCase> of(Protocol protocol) {
    EdgeCases edges = new EdgeCases(protocol);
    edges.collect();
    return List.copyOf(edges.cases);
  }

  private void collect() {
    Scene scene = new Scene(protocol, Paths.of(protocol));
    group("before", "before", protocol.rules().before(), scene.before());
    group("any_time", "any time", protocol.rules().anyTime(), scene.anyTime());
    Map<List<ProtocolRule>, Boolean> seen = new LinkedHashMap<>();
    for (Stage stage : protocol.stages()) {
      List<ProtocolRule> rules = protocol.rulesAtEndOf(stage);
      if (seen.put(rules, true) == null) {
        String group = stage.ownRules().isPresent() ? stage.id() : "stage_end";
        String moment = stage.id() + " at " + Times.clock(stage.lasts());
        group(group, moment, rules, scene.end(stage, scene.ends(stage).keySet().iterator().next()));
      }
    }
    group("recovery", "any time", protocol.rules().recovery(), scene.anyTime());
  }

  private void group(String group, String moment, List<ProtocolRule> rules, Box box) {
    for (ProtocolRule rule : rules) {
      Optional<Condition> condition = rule.rule().condition();
      if (condition.isPresent()) {
        Optional<Frame> start = start(rules, rule, condition.get(), box);
        if (start.isPresent()) {
          for (Compared compared : condition.get().anatomy().comparisons()) {
            edge(group, moment, rules, rule, compared, start.get(), box);
          }
        }
      }
    }
  }

  // Readings on which this rule holds, and if it can be no other of its group that says something
  // else; else those on which it at least holds, or fails.
  private Optional<Frame> start(
      List<ProtocolRule> rules, ProtocolRule rule, Condition condition, Box box) {
    Wanted holds = new Wanted(condition, true);
    List<Wanted> alone = new ArrayList<>(List.of(holds));
    for (ProtocolRule other : rules) {
      if (!other.equals(rule) && !other.action().equals(new Action.Caution())) {
        other
            .rule()
            .condition()
            .filter(when -> !(other.action() instanceof Action.Offer))
            .ifPresent(when -> alone.add(new Wanted(when, false)));
      }
    }
    return sampler
        .find(box, alone)
        .or(() -> sampler.find(box, List.of(holds)))
        .or(() -> sampler.find(box, List.of(new Wanted(condition, false))));
  }

  private void edge(
      String group,
      String moment,
      List<ProtocolRule> rules,
      ProtocolRule rule,
      Compared compared,
      Frame start,
      Box box) {
    List<Demand> varied = new ArrayList<>();
    varied.addAll(compared.left().demands());
    varied.addAll(compared.right().demands());
    varied.removeIf(demand -> !(demand.type() instanceof Type.Measure));
    varied.sort(Comparator.comparing(this::rank).thenComparing(Demand::subject));
    for (Demand demand : varied.stream().distinct().toList()) {
      int slot = demands.indexOf(demand);
      List<Integer> beside = beside(demand, varied);
      OptionalDouble root =
          root(compared, start, slot, beside, (Cell.Range) box.cell(slot), demand);
      if (root.isPresent()) {
        for (Side side : Side.values()) {
          double step = Math.max(Grain.step(protocol, demand), 1e-2);
          double value = root.getAsDouble() + side.steps() * step;
          Frame frame = with(start, slot, value, beside);
          cases.add(
              new EdgeCase(
                  rule.id(),
                  group,
                  moment,
                  compared.text(),
                  compared.whole(),
                  name(demand),
                  quantity(demand, value),
                  side,
                  others(rule, demand, frame),
                  rule.rule().test(frame),
                  decides(rules, frame)));
        }
        return;
      }
    }
  }

  // What a tester reads is varied first, then what the person is like, then the rest.
  private int rank(Demand demand) {
    if (demand.aspect() == Aspect.VALUE && Parts.isRead(protocol, demand)) {
      return 0;
    } else if (Parts.signal(protocol, demand).isPresent()) {
      return 1;
    }
    return demand.aspect() == Aspect.VALUE ? 2 : 3;
  }

  private OptionalDouble root(
      Compared compared,
      Frame start,
      int slot,
      List<Integer> beside,
      Cell.Range range,
      Demand demand) {
    double low = Math.max(range.low(), Grain.low(protocol, demand, new double[] {1e3}));
    double high = Math.min(range.high(), Grain.high(protocol, demand, new double[] {1e3}));
    double from = Math.max(range.low(), Math.min(low, high));
    double to = Math.min(range.high(), Math.max(low, high));
    double here = start.isKnown(slot) ? start.value(slot) : (from + to) / 2;
    OptionalDouble nearest = OptionalDouble.empty();
    double width = (to - from) / SCAN;
    for (int i = 0; i < SCAN; i++) {
      double left = from + i * width;
      double right = left + width;
      double a = compared.excess(with(start, slot, left, beside));
      double b = compared.excess(with(start, slot, right, beside));
      if (!Double.isNaN(a) && !Double.isNaN(b) && a * b <= 0 && a != b) {
        double found = halve(compared, start, slot, beside, left, right, a);
        boolean nearer =
            nearest.isEmpty() || Math.abs(found - here) < Math.abs(nearest.getAsDouble() - here);
        nearest = nearer ? OptionalDouble.of(found) : nearest;
      }
    }
    return nearest;
  }

  private double halve(
      Compared compared,
      Frame start,
      int slot,
      List<Integer> beside,
      double left,
      double right,
      double atLeft) {
    double low = left;
    double high = right;
    for (int i = 0; i < HALVINGS; i++) {
      double middle = (low + high) / 2;
      double excess = compared.excess(with(start, slot, middle, beside));
      boolean same = excess * atLeft > 0;
      low = same ? middle : low;
      high = same ? high : middle;
    }
    // The edge is mostly a round figure that halving only comes near to.
    double round = Math.rint(high * 1000) / 1000;
    return Math.abs(round - high) < 1e-6 ? round : high;
  }

  // What was read a minute earlier moves along, unless the comparison is about just that: a steady
  // rate stays steady.
  private List<Integer> beside(Demand varied, List<Demand> compared) {
    List<Integer> beside = new ArrayList<>();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      boolean ofOne =
          demand.subject().equals(varied.subject()) && demand.type().equals(varied.type());
      boolean back =
          switch (demand.aspect()) {
            case EARLIER, AVERAGE, HIGHEST, LOWEST -> true;
            default -> false;
          };
      if (ofOne && back && varied.aspect() == Aspect.VALUE && !compared.contains(demand)) {
        beside.add(slot);
      }
    }
    return beside;
  }

  private Frame with(Frame start, int slot, double value, List<Integer> beside) {
    Frame frame = new Frame(protocol.wiring().layout());
    for (int i = 0; i < demands.size(); i++) {
      if (start.isKnown(i)) {
        frame.set(i, start.value(i), 0);
      } else {
        frame.miss(i, start.gap(i));
      }
    }
    double moved = start.isKnown(slot) ? value - start.value(slot) : 0;
    for (int other : beside) {
      if (start.isKnown(other)) {
        frame.set(other, start.value(other) + moved, 0);
      }
    }
    frame.set(slot, value, 0);
    return frame;
  }

  private Quantity quantity(Demand demand, double value) {
    var kind = ((Type.Measure) demand.type()).kind();
    return Quantity.ofBase(value, Grain.unit(protocol, demand, kind)).rounded(4);
  }

  private static String name(Demand demand) {
    return demand.aspect() == Aspect.VALUE
        ? demand.subject()
        : demand.aspect().name().toLowerCase(Locale.ROOT) + " " + demand.subject();
  }

  private String others(ProtocolRule rule, Demand varied, Frame frame) {
    List<String> parts =
        rule.rule().condition().stream()
            .flatMap(condition -> condition.demands().stream())
            .filter(demand -> !demand.equals(varied))
            .sorted(Comparator.comparing(Demand::subject).thenComparing(Demand::aspect))
            .map(demand -> Grain.text(protocol, demand, frame))
            .filter(text -> !text.isEmpty())
            .toList();
    return String.join(", ", parts);
  }

  private static String decides(List<ProtocolRule> rules, Frame frame) {
    for (ProtocolRule rule : rules) {
      boolean judges =
          !(rule.action() instanceof Action.Offer || rule.action() instanceof Action.Caution);
      Truth truth = judges ? rule.rule().test(frame) : Truth.FALSE;
      if (truth == Truth.TRUE) {
        return rule.action().word() + " (" + rule.id() + ")";
      } else if (truth == Truth.UNKNOWN) {
        return "measure (" + rule.id() + ")";
      }
    }
    return "go on";
  }

  /** Edge cases as a table for people. */
  public static String table(List<EdgeCase> cases) {
    return EdgeTable.of(cases);
  }
}
