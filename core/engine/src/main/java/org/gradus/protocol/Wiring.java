package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.knowledge.Citation;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** How the rules of a protocol get their values: which slot holds what. Immutable. */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Wiring {

  private final Layout layout;
  private final Map<String, Fact> facts;
  private final Map<String, Formula> axes;
  private final Map<String, Condition> counted;
  private final Map<String, Citation> citations;
  private final Map<String, Quantity> spreads;
  // What each slot stands for; frames are filled too often to look names up.
  private final List<Optional<Fact>> bySlot;
  private final List<Line> lines;
  private final BitSet measured = new BitSet();
  private final BitSet movedByTime = new BitSet();

  /**
   * A line through stages that formulas ask for.
   *
   * @param y the formula for what is drawn upwards
   * @param x the formula for what is drawn to the right
   * @param anchor the point it is drawn through besides the stages, if there is one
   * @param crossing where it is read, if it goes from each stage to the next and is not fitted
   * @param slots where its figures go
   */
  public record Line(
      Formula y,
      Formula x,
      Optional<Anchor> anchor,
      Optional<Crossing> crossing,
      List<Place> slots) {
    public Line {
      requireNonNull(anchor, "anchor");
      requireNonNull(crossing, "crossing");
      requireNonNull(slots, "slots");
      requireNonNull(x, "x");
      requireNonNull(y, "y");
    }

    private boolean isAskedFor(Set<Integer> asked) {
      return slots.stream().anyMatch(place -> asked.contains(place.slot()));
    }

    // What it is drawn and read by.
    private List<Formula> formulas() {
      List<Formula> formulas = new ArrayList<>(List.of(y, x));
      anchor.ifPresent(point -> formulas.addAll(List.of(point.y(), point.x(), point.sd())));
      crossing.flatMap(Crossing::named).ifPresent(formulas::add);
      return formulas;
    }

    /**
     * Where a line from each stage to the next is read.
     *
     * @param fixed the x in its base unit, where no name gives it
     * @param named the formula of the name that gives it
     * @param xName the name of what is drawn to the right
     */
    public record Crossing(double fixed, Optional<Formula> named, String xName) {
      public Crossing {
        requireNonNull(named, "named");
        requireNonNull(xName, "xName");
      }
    }

    /**
     * A point a line is drawn through besides the stages.
     *
     * @param y the formula for its y
     * @param x the formula for its x
     * @param sd the formula for the standard deviation of its x
     * @param xName the name of its x
     * @param sdName the name of that standard deviation, by which its source is found
     */
    public record Anchor(Formula y, Formula x, Formula sd, String xName, String sdName) {
      public Anchor {
        requireNonNull(sd, "sd");
        requireNonNull(sdName, "sdName");
        requireNonNull(x, "x");
        requireNonNull(xName, "xName");
        requireNonNull(y, "y");
      }
    }

    /**
     * Where a figure of the line goes.
     *
     * @param slot the slot
     * @param aspect which figure
     */
    public record Place(int slot, Aspect aspect) {}
  }

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
    this.lines = lines(layout, this.axes);
    for (int slot = 0; slot < layout.size(); slot++) {
      measured.set(slot, isMeasured(layout.demands().get(slot)));
      movedByTime.set(slot, isMovedByTime(slot));
    }
  }

  private boolean isMovedByTime(int slot) {
    return switch (layout.demands().get(slot).aspect()) {
      case EARLIER, AVERAGE, HIGHEST, LOWEST, COUNT -> true;
      case EVER, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
      case VALUE -> fact(slot).filter(Wiring::isMovedByTime).isPresent();
    };
  }

  private static boolean isMovedByTime(Fact fact) {
    return switch (fact.dependsOn()) {
      case CLOCK, LOAD -> true;
      case PERSON, READING, SIGN, STAGE, RESULT -> false;
    };
  }

  private boolean isMeasured(Demand demand) {
    return switch (demand.aspect()) {
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST ->
          demand.type() instanceof Type.Measure
              && Optional.ofNullable(facts.get(demand.subject())).flatMap(Fact::signal).isPresent();
      case EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
    };
  }

  private static List<Line> lines(Layout layout, Map<String, Formula> axes) {
    Map<List<String>, List<Line.Place>> places = new LinkedHashMap<>();
    for (int slot = 0; slot < layout.size(); slot++) {
      Demand demand = layout.demands().get(slot);
      switch (demand.aspect()) {
        case LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE ->
            places
                .computeIfAbsent(demand.subjects(), names -> new ArrayList<>())
                .add(new Line.Place(slot, demand.aspect()));
        case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST, EVER, COUNT, COMPLETED, INTERPOLATED -> {
          // No figure of a line.
        }
      }
    }
    List<Line> lines = new ArrayList<>();
    places.forEach(
        (names, slots) -> {
          Formula y = axes.get(names.get(0));
          Formula x = axes.get(names.get(1));
          // Where one is missing the file is faulty, or nothing is worked out from the line.
          if (y != null && x != null && names.stream().allMatch(axes::containsKey)) {
            lines.add(new Line(y, x, anchor(names, axes), Optional.empty(), List.copyOf(slots)));
          }
        });
    for (int slot = 0; slot < layout.size(); slot++) {
      Demand demand = layout.demands().get(slot);
      List<String> names = demand.subjects();
      if (demand.aspect() == Aspect.INTERPOLATED && axes.keySet().containsAll(names)) {
        lines.add(crossing(demand, slot, names.stream().map(axes::get).toList()));
      }
    }
    return List.copyOf(lines);
  }

  private static Line crossing(Demand demand, int slot, List<Formula> axes) {
    Optional<Formula> named = axes.size() > 2 ? Optional.of(axes.get(2)) : Optional.empty();
    return new Line(
        axes.get(0),
        axes.get(1),
        Optional.empty(),
        Optional.of(new Line.Crossing(demand.seconds(), named, demand.subjects().get(1))),
        List.of(new Line.Place(slot, Aspect.INTERPOLATED)));
  }

  private static Optional<Line.Anchor> anchor(List<String> names, Map<String, Formula> axes) {
    if (names.size() == 2) {
      return Optional.empty();
    }
    List<Formula> figures =
        names.subList(2, 5).stream()
            .flatMap(name -> Optional.ofNullable(axes.get(name)).stream())
            .toList();
    return Optional.of(
        new Line.Anchor(
            figures.get(0), figures.get(1), figures.get(2), names.get(3), names.get(4)));
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

  /**
   * Whether time alone can change something that a condition asks for: a clock runs, a load rises,
   * a reading becomes due.
   */
  public boolean isMovedByTime(Condition condition) {
    return condition.asksForAny(movedByTime);
  }

  /**
   * Formulas for the names that estimates are made from, stage by stage, and for those that results
   * are told with.
   */
  public Map<String, Formula> axes() {
    return axes;
  }

  /** The lines through stages that formulas ask for. */
  public List<Line> lines() {
    return lines;
  }

  /** The lines through stages that one formula asks for. */
  public List<Line> lines(Formula formula) {
    Set<Integer> asked = Set.copyOf(formula.slots());
    return lines.stream().filter(line -> line.isAskedFor(asked)).toList();
  }

  /** The lines that the value of a formula rests on, in order: those it asks for, and theirs. */
  public List<Line> linesBehind(Formula formula) {
    requireNonNull(formula, "formula");
    Set<Integer> asked = new HashSet<>(formula.slots());
    Set<Line> found = new HashSet<>();
    boolean more = true;
    while (more) {
      more = false;
      for (Line line : lines) {
        if (line.isAskedFor(asked) && found.add(line)) {
          line.formulas().forEach(one -> asked.addAll(one.slots()));
          more = true;
        }
      }
    }
    return lines.stream().filter(found::contains).toList();
  }

  /** Whether the value of a slot is a measure that was read, before the test or in it. */
  public boolean isMeasured(int slot) {
    return measured.get(slot);
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
    requireNonNull(equation, "equation");
    return Optional.ofNullable(spreads.get(equation));
  }

  /** The source of a named figure, definition or equation. */
  public Citation citation(String name) {
    requireNonNull(name, "name");
    return citations.getOrDefault(name, Citation.NONE);
  }
}
