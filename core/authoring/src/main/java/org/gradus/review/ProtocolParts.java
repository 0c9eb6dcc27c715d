package org.gradus.review;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.Compared;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;

/** The parts of a protocol that several checks look at. */
final class ProtocolParts {

  private ProtocolParts() {}

  /** A rule with the group it stands in: {@code before}, {@code any_time}, a stage's own list. */
  record Grouped(String group, ProtocolRule rule) {}

  /** Every rule once, in the order in which they are looked at. */
  static List<Grouped> rules(Protocol protocol) {
    List<Grouped> rules = new ArrayList<>();
    add("before", protocol.rules().before(), rules);
    add("any_time", protocol.rules().anyTime(), rules);
    add("stage_end", protocol.rules().stageEnd(), rules);
    for (Stage stage : protocol.stages()) {
      stage.ownRules().ifPresent(own -> add(stage.id(), own, rules));
    }
    add("recovery", protocol.rules().recovery(), rules);
    add("result", protocol.rules().result(), rules);
    return rules;
  }

  private static void add(String group, List<ProtocolRule> from, List<Grouped> to) {
    from.forEach(rule -> to.add(new Grouped(group, rule)));
  }

  /** The comparisons of a rule, also those in definitions it uses. */
  static List<Compared> comparisons(ProtocolRule rule) {
    return rule.rule().condition().map(when -> when.anatomy().comparisons()).orElse(List.of());
  }

  /** The value of a side that rests on nothing but figures. */
  static Optional<Double> constant(Protocol protocol, Formula side) {
    if (!side.demands().isEmpty()) {
      return Optional.empty();
    }
    double value = side.value(new Frame(protocol.wiring().layout()));
    return Double.isNaN(value) ? Optional.empty() : Optional.of(value);
  }

  /** The signal a side shows as it is, or its highest, lowest or mean: no difference of two. */
  static Optional<String> signal(Protocol protocol, Formula side) {
    Set<Demand> demands = side.demands();
    if (demands.size() != 1 || side.anatomy().definitions().size() > 0) {
      return Optional.empty();
    }
    Demand demand = demands.iterator().next();
    boolean plain = side.text().equals(demand.subject()) || demand.aspect() != Aspect.VALUE;
    return plain ? signal(protocol, demand) : Optional.empty();
  }

  /** The signal whose reading a demand asks for. */
  static Optional<String> signal(Protocol protocol, Demand demand) {
    return switch (demand.aspect()) {
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST -> protocol.wiring().fact(demand).signal();
      case EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED ->
          Optional.empty();
    };
  }

  /** Whether a demand asks for a reading of the present stage or moment. */
  static boolean isRead(Protocol protocol, Demand demand) {
    return signal(protocol, demand).isPresent()
        && protocol.wiring().fact(demand) instanceof Fact.Read;
  }
}
