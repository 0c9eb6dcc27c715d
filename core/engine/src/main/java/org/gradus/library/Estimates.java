package org.gradus.library;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.ModelError;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.library.YamlNode.Scalar;
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
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** Checks and plans how a result is worked out. */
final class Estimates {

  private static final List<String> MOMENTS = List.of("finish", "recovery");

  private final Draft draft;
  private final Shelf shelf;
  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Problems problems;

  Estimates(
      Draft draft, Shelf shelf, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    this.draft = draft;
    this.shelf = shelf;
    this.vocabulary = vocabulary;
    this.layout = layout;
    this.problems = problems;
  }

  List<CostLine> costs() {
    List<CostLine> lines = new ArrayList<>();
    for (ChoiceLine line : draft.cost) {
      Optional.ofNullable(shelf.costs.get(line.name().text()))
          .ifPresent(equation -> cost(line, equation, lines));
    }
    return lines;
  }

  private void cost(ChoiceLine line, CostEquation equation, List<CostLine> lines) {
    Optional<Condition> when = line.when().flatMap(this::condition);
    Optional<Condition> range = equation.range().flatMap(this::condition);
    Formula.of(equation.uptake(), EquationReader.UPTAKES, vocabulary, layout, problems)
        .ifPresent(uptake -> lines.add(new CostLine(equation, when, uptake, range)));
  }

  /** The oxygen cost that applies, where there is a sound list of costs. */
  Optional<Formula> uptake() {
    return named("uptake", draft.cost);
  }

  /** The maximal heart rate that applies, where there is a sound list of them. */
  Optional<Formula> maxHeartRate() {
    return named("max_heart_rate", draft.maxHeartRate);
  }

  private Optional<Formula> named(String name, List<ChoiceLine> lines) {
    boolean sound =
        !lines.isEmpty()
            && vocabulary.meaning(name).filter(symbol -> !isFaulty(symbol)).isPresent();
    return sound ? axis(name) : Optional.empty();
  }

  /** The estimates of the aerobic capacity; one that is the headline comes first. */
  List<EstimateLine> lines() {
    return lines(draft.estimates, "the estimate ");
  }

  /** The other results; one that is the headline comes first. */
  List<EstimateLine> results() {
    draft.results.forEach(this::isFree);
    return lines(draft.results, "the result ");
  }

  private List<EstimateLine> lines(List<EstimateDraft> drafts, String what) {
    List<EstimateLine> lines = new ArrayList<>();
    Set<String> ids = new HashSet<>();
    for (EstimateDraft estimate : drafts) {
      if (!ids.add(estimate.id())) {
        problems.add(estimate.where(), Code.G306, what + estimate.id());
      }
      line(estimate).ifPresent(lines::add);
    }
    Optional<String> headline = headline();
    lines.sort(Comparator.comparing(line -> headline.filter(line.id()::equals).isEmpty()));
    return lines;
  }

  // Rules about results call a result by its id.
  private void isFree(EstimateDraft result) {
    boolean taken =
        vocabulary.meaning(result.id()).isPresent()
            || Names.OWN.contains(result.id())
            || draft.estimates.stream().anyMatch(other -> other.id().equals(result.id()));
    if (taken) {
      problems.add(
          result.where(),
          Code.G305,
          result.id(),
          "a free name",
          "it means something else already; choose another");
    }
  }

  /** The id of what is shown first, if the file says it. */
  Optional<String> headline() {
    return draft.headline.map(Scalar::value);
  }

  /** Reports a headline that names nothing. */
  void checkHeadline() {
    List<String> ids =
        Stream.concat(draft.estimates.stream(), draft.results.stream())
            .filter(estimate -> !estimate.secondLook())
            .map(EstimateDraft::id)
            .toList();
    draft
        .headline
        .filter(name -> !ids.contains(name.value()) && draft.isWhole("estimates", "results"))
        .ifPresent(
            name -> {
              String otherwise = "there are " + String.join(", ", ids);
              String help = problems.help(name.value(), ids, otherwise);
              problems.add(name.span(), Code.G309, "estimate or result", name.value(), help);
            });
  }

  private Optional<EstimateLine> line(EstimateDraft estimate) {
    if (estimate.from() instanceof Selection.One one) {
      new Stages(draft, problems).place(one.stage());
    } else if (estimate.from() instanceof Selection.Moment moment) {
      moment(moment.name());
    }
    Vocabulary local = local(estimate);
    Optional<Condition> term = estimate.term().flatMap(this::condition);
    Optional<Condition> onlyWhen =
        estimate.onlyWhen().flatMap(text -> Condition.of(text, local, layout, problems));
    Optional<Formula> leastSpan =
        estimate
            .leastSpan()
            .flatMap(text -> Formula.of(text, List.of(Kind.values()), local, layout, problems));
    Optional<ModelError> model = estimate.model().flatMap(this::model);
    Optional<EstimateLine.Shown> shown =
        estimate.shown().map(draft -> shown(estimate, draft, local));
    List<Kind> kinds =
        estimate.shown().map(of -> List.of(of.unit().kind())).orElse(EquationReader.UPTAKES);
    return Formula.of(estimate.formula(), kinds, local, layout, problems)
        .map(
            formula ->
                new EstimateLine(
                    estimate.id(),
                    estimate.from(),
                    term,
                    onlyWhen,
                    formula,
                    leastSpan,
                    model,
                    estimate.error(),
                    estimate.source(),
                    estimate.assumes(),
                    estimate.secondLook(),
                    estimate.cautions(),
                    shown));
  }

  private EstimateLine.Shown shown(
      EstimateDraft result, EstimateDraft.ShownDraft shown, Vocabulary local) {
    List<Kind> kind = List.of(shown.unit().kind());
    Optional<EstimateLine.Reference> reference =
        shown
            .reference()
            .flatMap(
                expected ->
                    Formula.of(expected.value(), kind, local, layout, problems)
                        .map(
                            value ->
                                new EstimateLine.Reference(
                                    value,
                                    limit(expected.lower(), kind, local),
                                    limit(expected.upper(), kind, local),
                                    expected.source())));
    Optional<PlausibleRange> plausible = Optional.ofNullable(shelf.results.get(result.id()));
    if (plausible.filter(range -> range.range().low().kind() != shown.unit().kind()).isPresent()) {
      problems.add(
          result.where(),
          Code.G305,
          result.id() + " (" + shown.unit().kind().phrase() + ")",
          plausible.orElseThrow().range().low().kind().phrase(),
          "its plausible range is " + plausible.orElseThrow().range());
    }
    return new EstimateLine.Shown(shown.title(), shown.unit(), reference, plausible);
  }

  private Optional<Formula> limit(Optional<Expression> text, List<Kind> kind, Vocabulary local) {
    return text.flatMap(limit -> Formula.of(limit, kind, local, layout, problems));
  }

  private Optional<ModelError> model(Scalar name) {
    Optional<ModelError> model = Optional.ofNullable(shelf.models.get(name.value()));
    if (model.isEmpty() && !shelf.torn && !shelf.faulty.contains(name.value())) {
      String help =
          problems.help(
              name.value(),
              List.copyOf(shelf.models.keySet()),
              "declare it under models in a file of equations");
      problems.add(name.span(), Code.G305, name.value(), "a model that a file declares", help);
    }
    return model;
  }

  private void moment(Expression.Name name) {
    if (!MOMENTS.contains(name.text())) {
      String help =
          problems.help(name.text(), MOMENTS, "stages, or one of " + String.join(", ", MOMENTS));
      problems.add(name.span(), Code.G305, name.text(), "what an estimate can rest on", help);
    } else if (name.text().equals("recovery") && draft.recovery.isEmpty() && draft.isWhole()) {
      problems.add(name.span(), Code.G303, "the protocol", "recovery");
    }
  }

  private Vocabulary local(EstimateDraft estimate) {
    List<Written> locals = new ArrayList<>();
    estimate
        .locals()
        .forEach(
            (name, body) -> {
              if (vocabulary.meaning(name).filter(symbol -> !isFaulty(symbol)).isPresent()) {
                problems.add(
                    body.where(),
                    Code.G305,
                    name,
                    "a free name",
                    "it means something else already; choose another");
              }
              Line line = new Line("", List.of(), Optional.of(body.value()));
              locals.add(new Written(name, body.where(), List.of(line)));
            });
    Vocabulary known = vocabulary;
    for (String name : estimate.faultyLocals()) {
      known = known.with(name, new Symbol.Faulty());
    }
    return Definitions.check(locals, known, layout, problems);
  }

  private static boolean isFaulty(Symbol symbol) {
    return symbol instanceof Symbol.Faulty;
  }

  private Optional<Condition> condition(Expression text) {
    return Condition.of(text, vocabulary, layout, problems);
  }

  /** A formula for each name that a line is drawn over, and for each reading estimates rest on. */
  Map<String, Formula> axes(List<EstimateLine> estimates) {
    Map<String, Formula> axes = new LinkedHashMap<>();
    for (EstimateLine estimate : estimates) {
      Set<Demand> asked = new LinkedHashSet<>(estimate.formula().demands());
      estimate.onlyWhen().ifPresent(when -> asked.addAll(when.demands()));
      estimate
          .shown()
          .flatMap(EstimateLine.Shown::reference)
          .ifPresent(expected -> asked.addAll(expected.value().demands()));
      for (Demand demand : asked) {
        boolean reading =
            draft.signals.containsKey(demand.subject()) && demand.type() instanceof Type.Measure;
        if (reading
            || demand.aspect() == Aspect.LINE_SLOPE
            || demand.aspect() == Aspect.INTERPOLATED) {
          demand
              .subjects()
              .forEach(name -> axis(name).ifPresent(formula -> axes.put(name, formula)));
        }
      }
    }
    told().forEach(name -> axis(name).ifPresent(formula -> axes.put(name, formula)));
    return axes;
  }

  // What results are told with, whether an estimate rests on it or not.
  private List<String> told() {
    List<String> names = new ArrayList<>(List.of("max_heart_rate", "resting.heart_rate"));
    List<MeasureDraft> lines = new ArrayList<>(draft.measure);
    draft.recovery.ifPresent(recovery -> lines.addAll(recovery.measure()));
    lines.forEach(line -> line.named().ifPresent(name -> names.add(name.value())));
    return names.stream()
        .filter(
            name ->
                vocabulary
                    .meaning(name)
                    .filter(symbol -> !isFaulty(symbol) && symbol.type() instanceof Type.Measure)
                    .isPresent())
        .distinct()
        .toList();
  }

  private Optional<Formula> axis(String name) {
    Expression reference = new Expression.Reference(draft.header.where(), name);
    return Formula.of(reference, List.of(Kind.values()), vocabulary, layout, problems);
  }
}
