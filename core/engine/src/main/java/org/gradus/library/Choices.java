package org.gradus.library;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.MaxHeartRate;
import org.gradus.protocol.Attribute;
import org.gradus.rule.check.Definitions.Line;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;

/** Makes definitions of the lists of equations of which the first that applies is taken. */
final class Choices {

  private static final String MEASURED = "measured";
  private static final String NONE = "none";

  /** Words that the lists keep for themselves. */
  static final Set<String> KEPT = Set.of(MEASURED, NONE);

  private final Shelf shelf;
  private final Problems problems;

  Choices(Shelf shelf, Problems problems) {
    this.shelf = shelf;
    this.problems = problems;
  }

  /** A line of the list of maximal heart rates; empty when it names what does not exist. */
  Optional<Line> maxHeartRate(ChoiceLine line) {
    String name = line.name().text();
    List<Expression> when = new ArrayList<>(line.when().stream().toList());
    if (name.equals(NONE)) {
      return Optional.of(new Line(name, when, Optional.empty()));
    } else if (name.equals(MEASURED)) {
      String attribute = Attribute.MEASURED_MAX_HEART_RATE.word();
      Expression given = new Expression.Reference(line.name().span(), attribute);
      return Optional.of(new Line(name, when, Optional.of(given)));
    }
    MaxHeartRate equation = shelf.maxHeartRates.get(name);
    if (equation == null) {
      List<String> known = new ArrayList<>(shelf.maxHeartRates.keySet());
      known.addAll(KEPT);
      missing(line, "maximal heart rate", known);
      return Optional.empty();
    }
    equation.onlyWhen().ifPresent(when::add);
    return Optional.of(new Line(equation.title(), when, Optional.of(equation.rate())));
  }

  /** A line of the list of costs; empty when it names what does not exist. */
  Optional<Line> cost(ChoiceLine line) {
    String name = line.name().text();
    CostEquation equation = shelf.costs.get(name);
    if (equation == null) {
      missing(line, "oxygen cost", List.copyOf(shelf.costs.keySet()));
      return Optional.empty();
    }
    return Optional.of(
        new Line(name, line.when().stream().toList(), Optional.of(equation.uptake())));
  }

  private void missing(ChoiceLine line, String what, List<String> known) {
    if (shelf.torn || shelf.faulty.contains(line.name().text())) {
      return;
    }
    String otherwise =
        known.isEmpty() || problems.isFull()
            ? "add a file of equations"
            : "there are " + String.join(", ", known.stream().sorted().toList());
    String help =
        shelf
            .replacement(line.name().text())
            .map(rate -> rate.id() + " replaces it")
            .orElseGet(() -> problems.help(line.name().text(), known, otherwise));
    problems.add(line.name().span(), Code.G309, what, line.name().text(), help);
  }
}
