package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.Equations;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.EstimateLine;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Definitions.Line;
import org.gradus.rule.check.Definitions.Written;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Type;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Kind;

/** Checks and plans how a result is worked out. */
final class Estimates {

  private static final List<Kind> UPTAKES = List.of(Kind.UPTAKE, Kind.ABSOLUTE_UPTAKE);

  private final Draft draft;
  private final Equations equations;
  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Problems problems;

  Estimates(
      Draft draft,
      Equations equations,
      Vocabulary vocabulary,
      Layout.Builder layout,
      Problems problems) {
    this.draft = draft;
    this.equations = equations;
    this.vocabulary = vocabulary;
    this.layout = layout;
    this.problems = problems;
  }

  List<CostLine> costs() {
    List<CostLine> lines = new ArrayList<>();
    for (ChoiceLine line : draft.cost) {
      Optional.ofNullable(equations.costs().get(line.name().text()))
          .ifPresent(equation -> cost(line, equation, lines));
    }
    return lines;
  }

  private void cost(ChoiceLine line, CostEquation equation, List<CostLine> lines) {
    Optional<Condition> when = line.when().flatMap(this::condition);
    Optional<Condition> range = equation.range().flatMap(this::condition);
    Formula.of(equation.uptake(), UPTAKES, vocabulary, layout, problems)
        .ifPresent(uptake -> lines.add(new CostLine(equation, when, uptake, range)));
  }

  List<EstimateLine> lines() {
    List<EstimateLine> lines = new ArrayList<>();
    for (EstimateDraft estimate : draft.estimates) {
      line(estimate).ifPresent(lines::add);
    }
    return lines;
  }

  private Optional<EstimateLine> line(EstimateDraft estimate) {
    List<Written> locals = new ArrayList<>();
    estimate
        .locals()
        .forEach(
            (name, body) ->
                locals.add(
                    new Written(
                        name,
                        body.where(),
                        List.of(new Line("", List.of(), Optional.of(body.value()))))));
    Vocabulary local = Definitions.check(locals, vocabulary, layout, problems);
    Optional<Condition> term = term(estimate.from()).flatMap(this::condition);
    Optional<Condition> onlyWhen =
        estimate.onlyWhen().flatMap(text -> Condition.of(text, local, layout, problems));
    return Formula.of(estimate.vo2max(), UPTAKES, local, layout, problems)
        .map(
            formula ->
                new EstimateLine(
                    estimate.id(),
                    estimate.from(),
                    term,
                    onlyWhen,
                    formula,
                    estimate.error(),
                    estimate.source(),
                    estimate.cautions()));
  }

  // "completed" is what every selected stage is; any other word is a term that must hold at its
  // end.
  private static Optional<Expression> term(Selection from) {
    Optional<Expression.Name> name =
        from instanceof Selection.FromEnd end
            ? end.term()
            : from instanceof Selection.All all ? all.term() : Optional.empty();
    return name.filter(word -> !word.text().equals("completed"))
        .map(word -> new Expression.Reference(word.span(), word.text()));
  }

  private Optional<Condition> condition(Expression text) {
    return Condition.of(text, vocabulary, layout, problems);
  }

  /** A formula for each name that a line is drawn over, and for each reading estimates rest on. */
  Map<String, Formula> axes(List<EstimateLine> estimates) {
    Map<String, Formula> axes = new LinkedHashMap<>();
    for (EstimateLine estimate : estimates) {
      for (Demand demand : estimate.vo2max().demands()) {
        boolean reading =
            draft.signals.containsKey(demand.subject()) && demand.type() instanceof Type.Measure;
        if (reading || demand.aspect() == Aspect.LINE_SLOPE) {
          demand
              .subjects()
              .forEach(name -> axis(name).ifPresent(formula -> axes.put(name, formula)));
        }
      }
    }
    return axes;
  }

  private Optional<Formula> axis(String name) {
    Expression reference = new Expression.Reference(draft.header.where(), name);
    return Formula.of(reference, List.of(Kind.values()), vocabulary, layout, problems);
  }
}
