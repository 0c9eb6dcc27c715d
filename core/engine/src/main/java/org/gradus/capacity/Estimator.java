package org.gradus.capacity;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.capacity.Estimate.Ingredient;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.knowledge.ResultMessage;
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
import org.gradus.words.FileText;
import org.gradus.words.Joined;
import org.gradus.words.Message;
import org.gradus.words.Name;

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
    List<Object> parts = new ArrayList<>(List.of(Loading.message(stage.loads())));
    for (String reading : readings(line)) {
      Optional.ofNullable(protocol.wiring().axes().get(reading))
          .filter(axis -> !Double.isNaN(axis.value(frame)))
          .ifPresent(
              axis ->
                  parts.add(
                      Message.of(
                          Joined.PAIR,
                          new Name(reading),
                          protocol.shown(reading, axis.value(frame), axis.kind()))));
    }
    // In a pause no load is set, and nothing follows from it.
    Optional<CostLine> cost =
        costs.of(frame).filter(chosen -> !Double.isNaN(chosen.uptake().value(frame)));
    return new Ingredient(
        "stage " + stage.id(),
        Message.of(ResultMessage.STAGE, new FileText(stage.id())),
        Message.of(Joined.ALONE, parts),
        cost.map(chosen -> shown(chosen, frame)).orElse(Message.of(ResultMessage.NO_COST)),
        cost.map(chosen -> chosen.equation().source()).orElse(Citation.NONE),
        cost.flatMap(chosen -> chosen.equation().spread()));
  }

  private Ingredient ingredient(Wiring.Line.Anchor anchor, Situation situation) {
    Frame frame = situation.own();
    return new Ingredient(
        "anchor of the line",
        Message.of(ResultMessage.ANCHOR),
        Message.of(
            Joined.ALONE,
            protocol.shown(anchor.xName(), anchor.x().value(frame), anchor.x().kind())),
        Message.of(
            ResultMessage.ANCHOR_AT,
            new FileText(anchor.xName()),
            Quantity.ofBase(anchor.y().value(frame), anchor.y().kind().base()).rounded(2)),
        protocol.wiring().citation(anchor.sdName()),
        Optional.of(Quantity.ofBase(anchor.sd().value(frame), anchor.sd().kind().base())));
  }

  // A value chosen from a list has the source and the spread of what was chosen.
  private Ingredient ingredient(Filled.Definition definition) {
    String chosen = chosen(definition).orElse(definition.name());
    Citation source = protocol.wiring().citation(chosen);
    return new Ingredient(
        definition.name(),
        Message.of(Joined.ALONE, new Name(definition.name())),
        Message.of(Joined.ALONE, definition.value()),
        Message.of(Joined.ALONE, definition.text()),
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

  private static Message shown(CostLine cost, Frame frame) {
    Quantity uptake = Quantity.ofBase(cost.uptake().value(frame), cost.uptake().kind().base());
    return Message.of(Joined.COLON, new FileText(cost.equation().id()), uptake.rounded(2));
  }

  // What happened in this test comes before what is always to be known of the method.
  private List<Message> cautions(
      EstimateLine line, List<StageResult> stages, Propagation.Around around) {
    List<Message> cautions = new ArrayList<>();
    if (outcome.stopped()) {
      cautions.add(Message.of(ResultMessage.ENDED_BY_STOP));
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
      cautions.add(Message.of(ResultMessage.UNEVEN));
    }
    around.lacking().ifPresent(cautions::add);
    if (attempt.plausible(line).isEmpty()) {
      cautions.add(
          Message.of(
              line.shown().isEmpty()
                  ? ResultMessage.UNCHECKED_CAPACITY
                  : ResultMessage.UNCHECKED_VALUE));
    }
    line.cautions()
        .forEach(caution -> cautions.add(Message.of(Joined.ALONE, new FileText(caution))));
    return cautions;
  }

  // An equation without a spread of its own counts with that of another one.
  private Set<Message> borrowed(List<StageResult> stages, Optional<Interval> interval) {
    Set<Message> borrowed = new LinkedHashSet<>();
    for (StageResult stage : stages) {
      costs
          .of(attempt.frames().of(stage))
          .map(CostLine::equation)
          .filter(cost -> cost.spreadOf().isPresent() && isIn(interval, cost.id()))
          .ifPresent(
              cost ->
                  borrowed.add(
                      Message.of(
                          ResultMessage.BORROWED,
                          new FileText(cost.id()),
                          new FileText(cost.spreadOf().orElseThrow()),
                          cost.spread().orElseThrow())));
    }
    return borrowed;
  }

  private static boolean isIn(Optional<Interval> interval, String equation) {
    return interval.stream()
        .flatMap(around -> around.shares().stream())
        .anyMatch(share -> share.label().equals(Doubts.ofCost(equation)));
  }

  // What an estimate from stages passes over without a word would pass for a sound test.
  private Optional<Message> brokenOff(List<StageResult> used) {
    if (used.isEmpty() || outcome.stopped()) {
      return Optional.empty();
    }
    int last = used.get(used.size() - 1).place();
    return outcome.stages().stream()
        .filter(stage -> stage.place() > last && !stage.completed())
        .findFirst()
        .map(
            stage ->
                Message.of(
                    ResultMessage.BROKEN_OFF,
                    new FileText(stage.id()),
                    Times.clock(stage.lasted())));
  }

  private static Message beyond(CostLine cost, StageResult stage) {
    FileText equation = new FileText(cost.equation().id());
    FileText where = new FileText(stage.id());
    Message load = Loading.message(stage.loads());
    return cost.equation()
        .range()
        .map(
            stated ->
                Message.of(
                    ResultMessage.BEYOND_RANGE,
                    equation,
                    where,
                    load,
                    new FileText(stated.span().inOneLine())))
        .orElseGet(() -> Message.of(ResultMessage.BEYOND, equation, where, load));
  }
}
