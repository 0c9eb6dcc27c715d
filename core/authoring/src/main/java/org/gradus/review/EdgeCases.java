package org.gradus.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gradus.internal.reach.Scene;
import org.gradus.protocol.Paths;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.review.EdgeCase.Side;
import org.gradus.review.Sampler.Wanted;
import org.gradus.rule.Compared;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Action;
import org.gradus.session.Times;

/**
 * For every comparison in every rule the readings one step below, on, and one step above its edge,
 * and what the rules of its group make of them: a table to check by hand, and a source of test
 * data. A comparison with a reading of the stage before has an edge for that reading too.
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

  private final Protocol protocol;
  private final Sampler sampler;
  private final List<Demand> demands;
  private final List<EdgeCase> cases = new ArrayList<>();

  private EdgeCases(Protocol protocol) {
    this.protocol = protocol;
    this.sampler = new Sampler(protocol, true);
    this.demands = protocol.wiring().layout().demands();
  }

  /** Rules that are looked at together, at a moment at which all this may be known. */
  private record Look(String group, String moment, List<ProtocolRule> rules, Box box) {}

  /** All edge cases of a protocol, in the order of its rules; the same every time. */
  public static List<EdgeCase> of(Protocol protocol) {
    EdgeCases edges = new EdgeCases(protocol);
    edges.collect();
    return List.copyOf(edges.cases);
  }

  private void collect() {
    Scene scene = new Scene(protocol, Paths.of(protocol));
    look(List.of(new Look("before", "before", protocol.rules().before(), scene.before())));
    look(List.of(new Look("any_time", "any time", protocol.rules().anyTime(), scene.anyTime())));
    Map<List<ProtocolRule>, List<Look>> ends = new LinkedHashMap<>();
    for (Stage stage : protocol.stages()) {
      List<ProtocolRule> rules = protocol.rulesAtEndOf(stage);
      String group = stage.ownRules().isPresent() ? stage.id() : "stage_end";
      String moment = stage.id() + " at " + Times.clock(stage.lasts());
      Box box = scene.end(stage, scene.ends(stage).keySet().iterator().next());
      ends.computeIfAbsent(rules, none -> new ArrayList<>())
          .add(new Look(group, moment, rules, box));
    }
    ends.values().forEach(this::look);
    look(List.of(new Look("recovery", "any time", protocol.rules().recovery(), scene.anyTime())));
  }

  // The same rules are looked at once: at the first moment at which all they ask for may be known.
  private void look(List<Look> moments) {
    for (ProtocolRule rule : moments.get(0).rules()) {
      Optional<Condition> condition = rule.rule().condition();
      if (condition.isPresent()) {
        Look look =
            moments.stream()
                .filter(moment -> mayBeKnown(condition.get(), moment.box()))
                .findFirst()
                .orElse(moments.get(0));
        start(look, rule, condition.get())
            .ifPresent(
                start ->
                    condition
                        .get()
                        .anatomy()
                        .comparisons()
                        .forEach(compared -> edges(look, rule, compared, start)));
      }
    }
  }

  // In the first stage nothing is known of a stage before.
  private boolean mayBeKnown(Condition condition, Box box) {
    return condition.demands().stream()
        .allMatch(demand -> box.cell(demands.indexOf(demand)).presence() != Presence.UNKNOWN);
  }

  // Readings on which this rule holds, and if it can be no other of its group that says something
  // else; else those on which it at least holds, or fails.
  private Optional<Frame> start(Look look, ProtocolRule rule, Condition condition) {
    Wanted holds = new Wanted(condition, true);
    List<Wanted> alone = new ArrayList<>(List.of(holds));
    for (ProtocolRule other : look.rules()) {
      if (!other.equals(rule) && !other.action().equals(new Action.Caution())) {
        other
            .rule()
            .condition()
            .filter(when -> !(other.action() instanceof Action.Offer))
            .ifPresent(when -> alone.add(new Wanted(when, false)));
      }
    }
    return sampler
        .find(look.box(), alone)
        .or(() -> sampler.find(look.box(), List.of(holds)))
        .or(() -> sampler.find(look.box(), List.of(new Wanted(condition, false))));
  }

  private void edges(Look look, ProtocolRule rule, Compared compared, Frame start) {
    boolean one = false;
    for (Varied varied : Varied.in(protocol, compared)) {
      if (!one || varied.isBefore()) {
        Cell.Range range = (Cell.Range) look.box().cell(varied.slot());
        OptionalDouble edge = varied.edge(start, range);
        if (edge.isPresent()) {
          one = true;
          for (Side side : Side.values()) {
            double value = edge.getAsDouble() + side.steps() * varied.step();
            add(look, rule, compared, varied, side, value, varied.at(start, value));
          }
        }
      }
    }
  }

  private void add(
      Look look,
      ProtocolRule rule,
      Compared compared,
      Varied varied,
      Side side,
      double value,
      Frame frame) {
    cases.add(
        new EdgeCase(
            rule.id(),
            look.group(),
            look.moment(),
            compared.text(),
            compared.whole(),
            varied.name(),
            varied.quantity(value),
            side,
            others(rule, varied.demand(), frame),
            rule.rule().test(frame),
            decides(look.rules(), frame)));
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
      boolean judges = !rule.action().isAside();
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
