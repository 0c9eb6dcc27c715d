package org.gradus.protocol;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.unit.Quantity;

/** How the rules of a protocol get their values: which slot holds what. Immutable. */
public final class Wiring {

  private final Layout layout;
  private final Map<String, Fact> facts;
  private final Map<String, Formula> axes;
  private final Map<String, Condition> counted;
  private final Map<String, Citation> citations;
  private final Map<String, Quantity> spreads;
  // What each slot stands for; frames are filled too often to look names up.
  private final List<Optional<Fact>> bySlot;
  private final int[] read;

  /**
   * Slots and what they stand for.
   *
   * @param layout the slots
   * @param facts what each name that rules ask for stands for
   * @param axes formulas for the names that estimates are made from, stage by stage, and for those
   *     that results are told with
   * @param counted the definitions that rules count over stages, by name
   * @param citations the source of each named figure, definition and equation
   * @param spreads the standard deviation between people of each equation that states one
   */
  public Wiring(
      Layout layout,
      Map<String, Fact> facts,
      Map<String, Formula> axes,
      Map<String, Condition> counted,
      Map<String, Citation> citations,
      Map<String, Quantity> spreads) {
    this.layout = layout;
    this.facts = Map.copyOf(facts);
    this.axes = Map.copyOf(axes);
    this.counted = Map.copyOf(counted);
    this.citations = Map.copyOf(citations);
    this.spreads = Map.copyOf(spreads);
    this.bySlot =
        layout.demands().stream()
            .map(
                demand ->
                    demand.aspect() == Aspect.VALUE
                        ? Optional.ofNullable(facts.get(demand.subject()))
                        : Optional.<Fact>empty())
            .toList();
    this.read = IntStream.range(0, layout.size()).filter(this::isRead).toArray();
  }

  private boolean isRead(int slot) {
    return bySlot
        .get(slot)
        .map(
            fact ->
                fact instanceof Fact.Read
                    || fact instanceof Fact.Previous
                    || fact instanceof Fact.Named)
        .orElse(layout.demands().get(slot).aspect() != Aspect.EVER);
  }

  /** The slots. */
  public Layout layout() {
    return layout;
  }

  /** What each name that rules ask for stands for. */
  public Map<String, Fact> facts() {
    return facts;
  }

  /** What the name of a demand stands for. */
  public Fact fact(Demand demand) {
    Fact fact = facts.get(demand.subject());
    if (fact == null) {
      throw new IllegalArgumentException("no such name: " + demand.subject());
    }
    return fact;
  }

  /** What the slot of a value stands for; empty for a slot of another kind. */
  public Optional<Fact> fact(int slot) {
    return bySlot.get(slot);
  }

  /** The slots whose values can change when something is read in a stage. */
  public IntStream readInStage() {
    return Arrays.stream(read);
  }

  /**
   * Formulas for the names that estimates are made from, stage by stage, and for those that results
   * are told with.
   */
  public Map<String, Formula> axes() {
    return axes;
  }

  /** The definitions that rules count over stages, by name. */
  public Map<String, Condition> counted() {
    return counted;
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
