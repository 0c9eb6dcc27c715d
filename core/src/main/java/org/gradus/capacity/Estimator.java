package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.capacity.Estimate.Ingredient;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Condition;
import org.gradus.rule.plan.Filled;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Truth;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Works out the estimates of one test. */
final class Estimator {

  private final Outcome outcome;
  private final Protocol protocol;
  private final Selector selector;

  Estimator(Outcome outcome) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.selector = new Selector(outcome);
  }

  Estimate estimate(EstimateLine line) {
    Selector.Selected selected = selector.select(line);
    if (!selected.lacking().isEmpty()) {
      return unavailable(line, List.of(selected.lacking()));
    }
    List<StageResult> stages = selected.stages();
    Frame frame =
        stages.isEmpty() ? outcome.atFinish() : outcome.atEndOf(stages.get(stages.size() - 1));
    StageLine.fill(frame, protocol, stages.stream().map(outcome::atEndOf).toList());
    Optional<List<String>> barred = line.onlyWhen().flatMap(condition -> barred(condition, frame));
    if (barred.isPresent()) {
      return unavailable(line, barred.get());
    }
    double value = line.vo2max().value(frame);
    if (Double.isNaN(value)) {
      return unavailable(line, line.vo2max().gaps(frame).stream().map(Gap::toString).toList());
    }
    return perKilogram(line, value)
        .<Estimate>map(vo2max -> available(line, vo2max, frame, stages))
        .orElseGet(() -> unavailable(line, List.of("mass: not answered")));
  }

  private static Estimate unavailable(EstimateLine line, List<String> reasons) {
    return new Estimate.Unavailable(line.id(), line.source(), reasons);
  }

  private static Optional<List<String>> barred(Condition condition, Frame frame) {
    Truth truth = condition.test(frame);
    if (truth == Truth.TRUE) {
      return Optional.empty();
    }
    return Optional.of(
        truth == Truth.UNKNOWN
            ? condition.gaps(frame).stream().map(Gap::toString).toList()
            : List.of("it applies only when " + condition.filled(frame)));
  }

  private Optional<Quantity> perKilogram(EstimateLine line, double value) {
    if (line.vo2max().kind() == Kind.UPTAKE) {
      return Optional.of(Quantity.of(value, Unit.ML_PER_KG_PER_MINUTE));
    }
    return outcome
        .person()
        .value(Attribute.MASS)
        .map(mass -> Quantity.of(value / mass.base(), Unit.ML_PER_KG_PER_MINUTE));
  }

  private Estimate available(
      EstimateLine line, Quantity vo2max, Frame frame, List<StageResult> stages) {
    Filled filled = line.vo2max().filled(frame);
    List<Ingredient> ingredients = new ArrayList<>();
    stages.forEach(stage -> ingredients.add(ingredient(line, stage)));
    for (Filled.Definition definition : filled.definitions()) {
      ingredients.add(
          new Ingredient(
              definition.name(), definition.value(), definition.text(), source(definition)));
    }
    return new Estimate.Available(
        line.id(),
        line.source(),
        vo2max,
        filled.text(),
        ingredients,
        line.error(),
        cautions(line, stages));
  }

  private Ingredient ingredient(EstimateLine line, StageResult stage) {
    Frame frame = outcome.atEndOf(stage);
    List<String> parts = new ArrayList<>(List.of(Loading.line(stage.loads())));
    for (String reading : readings(line)) {
      Optional.ofNullable(protocol.wiring().axes().get(reading))
          .filter(axis -> !Double.isNaN(axis.value(frame)))
          .ifPresent(
              axis ->
                  parts.add(
                      reading.replace('_', ' ')
                          + " "
                          + Quantity.ofBase(axis.value(frame), axis.kind().base())));
    }
    String uptake = cost(frame).map(cost -> shown(cost, frame)).orElse("no oxygen cost");
    Citation source = cost(frame).map(cost -> cost.equation().source()).orElse(Citation.NONE);
    return new Ingredient("stage " + stage.id(), String.join(", ", parts), uptake, source);
  }

  private List<String> readings(EstimateLine line) {
    return line.vo2max().demands().stream()
        .flatMap(demand -> demand.subjects().stream())
        .filter(protocol.instruments().signals()::containsKey)
        .distinct()
        .sorted()
        .toList();
  }

  private static String shown(CostLine cost, Frame frame) {
    Quantity uptake = Quantity.ofBase(cost.uptake().value(frame), cost.uptake().kind().base());
    return cost.equation().id() + ": " + uptake.rounded(2);
  }

  // A value chosen from a list has the source of what was chosen: "fox_1971: (220 - age ...".
  private Citation source(Filled.Definition definition) {
    int colon = definition.text().indexOf(": ");
    Citation chosen =
        colon > 0
            ? protocol.wiring().citation(definition.text().substring(0, colon))
            : Citation.NONE;
    return chosen.isNamed() ? chosen : protocol.wiring().citation(definition.name());
  }

  private List<String> cautions(EstimateLine line, List<StageResult> stages) {
    List<String> cautions = new ArrayList<>(line.cautions());
    for (StageResult stage : stages) {
      Frame frame = outcome.atEndOf(stage);
      cost(frame)
          .filter(
              cost -> cost.range().filter(range -> range.test(frame) == Truth.FALSE).isPresent())
          .ifPresent(cost -> cautions.add(beyond(cost, stage)));
    }
    if (outcome.stopped()) {
      cautions.add("the exercise was ended by a stop; the estimate rests on the stages before it");
    }
    return cautions;
  }

  private static String beyond(CostLine cost, StageResult stage) {
    String range =
        cost.equation()
            .range()
            .map(stated -> ", only for " + stated.span().text().replaceAll("\\s+", " "))
            .orElse("");
    return "the "
        + cost.equation().id()
        + " equation is not stated for stage "
        + stage.id()
        + " ("
        + Loading.line(stage.loads())
        + ")"
        + range;
  }

  private Optional<CostLine> cost(Frame frame) {
    for (CostLine cost : protocol.assessment().costs()) {
      Truth applies = cost.when().map(when -> when.test(frame)).orElse(Truth.TRUE);
      if (applies != Truth.FALSE) {
        return applies == Truth.TRUE ? Optional.of(cost) : Optional.empty();
      }
    }
    return Optional.empty();
  }
}
