package org.gradus.capacity;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.capacity.Estimate.Ingredient;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.protocol.CostLine;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Works out the estimates of one test. */
final class Estimator {

  private final Outcome outcome;
  private final Protocol protocol;
  private final Attempt attempt;
  private final Costs costs;

  Estimator(Outcome outcome) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.attempt = new Attempt(outcome);
    this.costs = new Costs(protocol);
  }

  Estimate estimate(EstimateLine line) {
    Attempt.Tried tried = attempt.at(line);
    return tried
        .answer()
        .map(answer -> made(line, answer))
        .orElseGet(
            () ->
                new Estimate.Unavailable(
                    line.id(), line.source(), line.secondLook(), tried.reasons()));
  }

  private Estimate made(EstimateLine line, Attempt.Answer answer) {
    return attempt
        .outside(line, answer)
        .<Estimate>map(
            range ->
                new Estimate.Implausible(
                    line.id(),
                    line.source(),
                    line.secondLook(),
                    answer.value(),
                    range,
                    line.formula().filled(answer.situation().own()).text()))
        .orElseGet(() -> available(line, answer));
  }

  /** Another result than a capacity, or why there is none. */
  Result result(EstimateLine line) {
    EstimateLine.Shown shown = line.shown().orElseThrow();
    Attempt.Tried tried = attempt.at(line);
    if (tried.answer().isEmpty()) {
      return Result.unavailable(line, shown, tried.reasons());
    }
    Attempt.Answer answer = tried.answer().get();
    Optional<PlausibleRange> outside = attempt.outside(line, answer);
    return new Result(
        line.id(),
        shown.title(),
        line.source(),
        line.assumes(),
        Optional.of(answer.value()),
        outside.isPresent() ? Optional.empty() : answer.around().interval(),
        shown.reference().flatMap(expected -> compared(expected, shown.unit(), answer)),
        line.formula().filled(answer.situation().own()).text(),
        ingredients(line, answer),
        line.error(),
        cautions(line, answer.stages(), answer.around()),
        outside,
        outside.stream().map(range -> range.against(Result.rounded(answer.value()))).toList());
  }

  private static Optional<Result.Compared> compared(
      EstimateLine.Reference expected, Unit unit, Attempt.Answer answer) {
    Frame frame = answer.situation().own();
    double value = expected.value().value(frame);
    return Double.isNaN(value)
        ? Optional.empty()
        : Optional.of(
            new Result.Compared(
                Quantity.ofBase(value, unit),
                limit(expected.lower(), unit, frame),
                limit(expected.upper(), unit, frame),
                expected.source()));
  }

  private static Optional<Quantity> limit(Optional<Formula> limit, Unit unit, Frame frame) {
    return limit
        .map(formula -> formula.value(frame))
        .filter(value -> !Double.isNaN(value))
        .map(value -> Quantity.ofBase(value, unit));
  }

  private Estimate available(EstimateLine line, Attempt.Answer answer) {
    return new Estimate.Available(
        line.id(),
        line.source(),
        line.assumes(),
        line.secondLook(),
        answer.value(),
        answer.around().interval(),
        line.formula().filled(answer.situation().own()).text(),
        ingredients(line, answer),
        line.error(),
        cautions(line, answer.stages(), answer.around()));
  }

  private List<Ingredient> ingredients(EstimateLine line, Attempt.Answer answer) {
    Filled filled = line.formula().filled(answer.situation().own());
    List<Ingredient> ingredients = new ArrayList<>();
    answer.stages().forEach(stage -> ingredients.add(ingredient(line, stage)));
    for (Wiring.Line drawn : protocol.wiring().lines(line.formula())) {
      drawn.anchor().ifPresent(anchor -> ingredients.add(ingredient(anchor, answer.situation())));
    }
    for (Filled.Definition definition : filled.definitions()) {
      ingredients.add(ingredient(definition));
    }
    return ingredients;
  }

  private static Optional<String> chosen(Filled.Definition definition) {
    int colon = definition.text().indexOf(": ");
    return colon > 0 ? Optional.of(definition.text().substring(0, colon)) : Optional.empty();
  }

  private Ingredient ingredient(EstimateLine line, StageResult stage) {
    Frame frame = attempt.frames().of(stage);
    List<String> parts = new ArrayList<>(List.of(Loading.line(stage.loads())));
    for (String reading : readings(line)) {
      Optional.ofNullable(protocol.wiring().axes().get(reading))
          .filter(axis -> !Double.isNaN(axis.value(frame)))
          .ifPresent(
              axis ->
                  parts.add(
                      reading.replace('_', ' ')
                          + " "
                          + protocol.shown(reading, axis.value(frame), axis.kind())));
    }
    // In a pause no load is set, and nothing follows from it.
    Optional<CostLine> cost =
        costs.of(frame).filter(chosen -> !Double.isNaN(chosen.uptake().value(frame)));
    return new Ingredient(
        "stage " + stage.id(),
        String.join(", ", parts),
        cost.map(chosen -> shown(chosen, frame)).orElse("no oxygen cost"),
        cost.map(chosen -> chosen.equation().source()).orElse(Citation.NONE),
        cost.flatMap(chosen -> chosen.equation().spread()));
  }

  private Ingredient ingredient(Wiring.Line.Anchor anchor, Situation situation) {
    Frame frame = situation.own();
    return new Ingredient(
        "anchor of the line",
        protocol.shown(anchor.xName(), anchor.x().value(frame), anchor.x().kind()).toString(),
        anchor.xName()
            + " at "
            + Quantity.ofBase(anchor.y().value(frame), anchor.y().kind().base()).rounded(2),
        protocol.wiring().citation(anchor.sdName()),
        Optional.of(Quantity.ofBase(anchor.sd().value(frame), anchor.sd().kind().base())));
  }

  // A value chosen from a list has the source and the spread of what was chosen.
  private Ingredient ingredient(Filled.Definition definition) {
    String chosen = chosen(definition).orElse(definition.name());
    Citation source = protocol.wiring().citation(chosen);
    return new Ingredient(
        definition.name(),
        definition.value(),
        definition.text(),
        source.isNamed() ? source : protocol.wiring().citation(definition.name()),
        protocol.wiring().spread(chosen));
  }

  private List<String> readings(EstimateLine line) {
    return line.formula().demands().stream()
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

  // What happened in this test comes before what is always to be known of the method.
  private List<String> cautions(
      EstimateLine line, List<StageResult> stages, Propagation.Around around) {
    List<String> cautions = new ArrayList<>();
    if (outcome.stopped()) {
      cautions.add("The exercise was ended by a stop; the estimate rests on the stages before it.");
    }
    brokenOff(stages).ifPresent(cautions::add);
    for (StageResult stage : stages) {
      Frame frame = attempt.frames().of(stage);
      costs
          .of(frame)
          .filter(
              cost -> cost.range().filter(range -> range.test(frame) == Truth.FALSE).isPresent())
          .ifPresent(cost -> cautions.add(beyond(cost, stage)));
    }
    cautions.addAll(borrowed(stages, around.interval()));
    if (around.interval().filter(interval -> !interval.nearLinear()).isPresent()) {
      cautions.add(
          "The formula is not near a straight line over these errors, so the interval is too even;"
              + " the answer may lie further off, on one side above all.");
    }
    if (!around.lacking().isEmpty()) {
      cautions.add(around.lacking());
    }
    if (attempt.plausible(line).isEmpty()) {
      cautions.add(
          line.shown().isEmpty()
              ? "No file says which capacities are plausible, so this one was not checked."
              : "No file says which values are plausible, so this one was not checked.");
    }
    cautions.addAll(line.cautions());
    return cautions;
  }

  // An equation without a spread of its own counts with that of another one.
  private Set<String> borrowed(List<StageResult> stages, Optional<Interval> interval) {
    Set<String> borrowed = new LinkedHashSet<>();
    for (StageResult stage : stages) {
      costs
          .of(attempt.frames().of(stage))
          .map(CostLine::equation)
          .filter(cost -> cost.spreadOf().isPresent() && isIn(interval, cost.id()))
          .ifPresent(
              cost ->
                  borrowed.add(
                      "No spread between people is published for the "
                          + cost.id()
                          + " equation; that of "
                          + cost.spreadOf().orElseThrow()
                          + ", "
                          + cost.spread().orElseThrow()
                          + ", is taken, the widest of its kind."));
    }
    return borrowed;
  }

  private static boolean isIn(Optional<Interval> interval, String equation) {
    return interval.stream()
        .flatMap(around -> around.shares().stream())
        .anyMatch(share -> share.name().equals(Doubts.ofCost(equation)));
  }

  // What an estimate from stages passes over without a word would pass for a sound test.
  private Optional<String> brokenOff(List<StageResult> used) {
    if (used.isEmpty() || outcome.stopped()) {
      return Optional.empty();
    }
    int last = used.get(used.size() - 1).place();
    return outcome.stages().stream()
        .filter(stage -> stage.place() > last && !stage.completed())
        .findFirst()
        .map(
            stage ->
                "Stage "
                    + stage.id()
                    + " was broken off after "
                    + Times.clock(stage.lasted())
                    + "; the estimate rests on the stages before it.");
  }

  private static String beyond(CostLine cost, StageResult stage) {
    String range =
        cost.equation().range().map(stated -> ", only for " + stated.span().inOneLine()).orElse("");
    return "The "
        + cost.equation().id()
        + " equation is not stated for stage "
        + stage.id()
        + " ("
        + Loading.line(stage.loads())
        + ")"
        + range
        + ".";
  }
}
