package org.gradus.protocol;

import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.unit.Quantity;

/**
 * How the rules of a protocol get their values: which slot holds what.
 *
 * @param layout the slots
 * @param facts what each name that rules ask for stands for
 * @param axes formulas for the names that estimates are made from, stage by stage, and for those
 *     that results are told with
 * @param counted the definitions that rules count over stages, by name
 * @param citations the source of each named figure, definition and equation
 * @param spreads the standard deviation between people of each equation that states one
 */
public record Wiring(
    Layout layout,
    Map<String, Fact> facts,
    Map<String, Formula> axes,
    Map<String, Condition> counted,
    Map<String, Citation> citations,
    Map<String, Quantity> spreads) {

  public Wiring {
    facts = Map.copyOf(facts);
    axes = Map.copyOf(axes);
    counted = Map.copyOf(counted);
    citations = Map.copyOf(citations);
    spreads = Map.copyOf(spreads);
  }

  /** What the name of a demand stands for. */
  public Fact fact(Demand demand) {
    Fact fact = facts.get(demand.subject());
    if (fact == null) {
      throw new IllegalArgumentException("no such name: " + demand.subject());
    }
    return fact;
  }

  /** The definition that a demand counts. */
  public Condition counted(Demand demand) {
    return Optional.ofNullable(counted.get(demand.subject())).orElseThrow();
  }

  /** The standard deviation between people of an equation, if it states one. */
  public Optional<Quantity> spread(String equation) {
    return Optional.ofNullable(spreads.get(equation));
  }

  /** The source of a named figure, definition or equation. */
  public Citation citation(String name) {
    return citations.getOrDefault(name, Citation.NONE);
  }
}
