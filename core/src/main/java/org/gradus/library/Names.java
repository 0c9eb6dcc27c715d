package org.gradus.library;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Suggestion;
import org.gradus.knowledge.CostEquation;
import org.gradus.knowledge.Equations;
import org.gradus.knowledge.MaxHeartRate;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Setting;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Definitions.Line;
import org.gradus.rule.check.Definitions.Written;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Symbol.Role;
import org.gradus.rule.check.Type;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;

/** Gives every name that a protocol's rules may use its meaning. */
final class Names {

  private static final Type TIME = new Type.Measure(Kind.TIME);

  private final Draft draft;
  private final Equations equations;
  private final Problems problems;
  private final Map<String, Symbol> symbols = new LinkedHashMap<>();
  private final Map<String, Fact> facts = new LinkedHashMap<>();

  private Names(Draft draft, Equations equations, Problems problems) {
    this.draft = draft;
    this.equations = equations;
    this.problems = problems;
  }

  /** The vocabulary of a protocol, and what its names stand for in a test. */
  record Known(Vocabulary vocabulary, Map<String, Fact> facts) {}

  static Known of(
      Draft draft,
      Equations equations,
      Map<String, Setting> settings,
      Layout.Builder layout,
      Problems problems) {
    Names names = new Names(draft, equations, problems);
    names.settings(settings);
    names.people();
    names.readings();
    names.loads();
    names.clocks();
    Vocabulary defined =
        Definitions.check(names.definitions(), Vocabulary.of(names.symbols), layout, problems);
    return new Known(names.withStage(defined), names.facts);
  }

  private void settings(Map<String, Setting> settings) {
    for (Setting setting : settings.values()) {
      if (setting.value() instanceof Setting.Figure figure) {
        symbols.put(setting.name(), new Symbol.Figure(figure.quantity()));
      } else if (setting.value() instanceof Setting.Word word) {
        Set<String> words = new LinkedHashSet<>(Set.of(word.word()));
        setting.options().forEach(option -> words.add(option.value().toString()));
        symbols.put(setting.name(), new Symbol.Word(word.word(), List.copyOf(words)));
      }
    }
  }

  private void people() {
    for (Attribute attribute : Attribute.values()) {
      fact(attribute.word(), attribute.type(), Role.FACT, new Fact.Attribute(attribute.word()));
    }
    draft.questions.forEach(
        (name, ask) -> fact(name, ask.value().type(), Role.FACT, new Fact.Answer(name)));
    draft.signs.forEach(
        (name, sign) -> fact(name, sign.value().type(), Role.SIGN, new Fact.Reported(name)));
  }

  private void readings() {
    draft.signals.forEach(
        (name, placed) -> {
          Type type = placed.value().type();
          fact(name, type, Role.SIGNAL, new Fact.Read(name));
          fact("previous_stage." + name, type, Role.FACT, new Fact.Previous(name, false));
          fact("at_finish." + name, type, Role.FACT, new Fact.AtFinish(name));
          for (Posture posture : Posture.values()) {
            fact(posture.word() + "." + name, type, Role.FACT, new Fact.Baseline(posture, name));
          }
        });
    List<Placed<MeasureLine>> lines = new ArrayList<>(draft.measure);
    draft.recovery.ifPresent(recovery -> lines.addAll(recovery.measure()));
    for (Placed<MeasureLine> line : lines) {
      line.value().named().ifPresent(name -> named(name, line.value()));
    }
  }

  private void named(String name, MeasureLine line) {
    Optional.ofNullable(draft.signals.get(line.signals().get(0)))
        .ifPresent(signal -> fact(name, signal.value().type(), Role.FACT, new Fact.Named(name)));
  }

  private void loads() {
    StageReader.LOADS.forEach(
        (name, kind) -> {
          Type type = new Type.Measure(kind);
          fact(name, type, Role.FACT, new Fact.Load(name));
          fact("previous_stage." + name, type, Role.FACT, new Fact.Previous(name, true));
        });
  }

  private void clocks() {
    List<String> ids = draft.stages.stream().map(StageDraft::id).toList();
    clock("stage.time", TIME, Fact.Clock.Which.STAGE_TIME);
    clock("stage.number", Type.NUMBER, Fact.Clock.Which.STAGE_NUMBER);
    clock("stage", new Type.Choice(ids), Fact.Clock.Which.STAGE);
    clock("test.time", TIME, Fact.Clock.Which.TEST_TIME);
    clock("exercise.time", TIME, Fact.Clock.Which.EXERCISE_TIME);
    clock("recovery.time", TIME, Fact.Clock.Which.RECOVERY_TIME);
  }

  private void clock(String name, Type type, Fact.Clock.Which which) {
    fact(name, type, Role.FACT, new Fact.Clock(which));
  }

  private void fact(String name, Type type, Role role, Fact fact) {
    symbols.put(name, new Symbol.Datum(Demand.value(name, type), role));
    facts.put(name, fact);
  }

  private List<Written> definitions() {
    List<Written> written = new ArrayList<>();
    draft.defines.forEach(
        (name, placed) -> {
          if (symbols.containsKey(name)) {
            problems.add(placed.where(), Code.G306, name);
          }
          Line line = new Line("", List.of(), Optional.of(placed.value().body()));
          written.add(new Written(name, placed.where(), List.of(line)));
        });
    if (!draft.maxHeartRate.isEmpty()) {
      List<Line> lines = draft.maxHeartRate.stream().map(this::maxHeartRate).toList();
      written.add(new Written("max_heart_rate", draft.maxHeartRate.get(0).span(), lines));
    }
    if (!draft.cost.isEmpty()) {
      List<Line> lines = draft.cost.stream().map(this::cost).toList();
      written.add(new Written("uptake", draft.cost.get(0).span(), lines));
    }
    return written;
  }

  private Line maxHeartRate(ChoiceLine line) {
    String name = line.name().text();
    List<Expression> when = new ArrayList<>(line.when().stream().toList());
    if (name.equals("none")) {
      return new Line(name, when, Optional.empty());
    } else if (name.equals("measured")) {
      String attribute = Attribute.MEASURED_MAX_HEART_RATE.word();
      return new Line(
          name, when, Optional.of(new Expression.Reference(line.name().span(), attribute)));
    }
    MaxHeartRate equation = equations.maxHeartRates().get(name);
    if (equation == null) {
      List<String> known = new ArrayList<>(equations.maxHeartRates().keySet());
      known.addAll(List.of("measured", "none"));
      missing(line, "maximal heart rate", known);
      return new Line(name, when, Optional.empty());
    }
    equation.onlyWhen().ifPresent(when::add);
    return new Line(name, when, Optional.of(equation.rate()));
  }

  private Line cost(ChoiceLine line) {
    CostEquation equation = equations.costs().get(line.name().text());
    if (equation == null) {
      missing(line, "oxygen cost", List.copyOf(equations.costs().keySet()));
    }
    return new Line(
        line.name().text(),
        line.when().stream().toList(),
        Optional.ofNullable(equation).map(CostEquation::uptake));
  }

  private void missing(ChoiceLine line, String what, List<String> known) {
    String help =
        Suggestion.help(
            line.name().text(),
            known,
            "there are " + String.join(", ", known.stream().sorted().toList()));
    problems.add(line.name().span(), Code.G309, what, line.name().text(), help);
  }

  // stage.X is X as it stands at the end of the stage that is looked at.
  private Vocabulary withStage(Vocabulary defined) {
    Map<String, Symbol> ofStage = new LinkedHashMap<>();
    Set<String> names = new LinkedHashSet<>(draft.signals.keySet());
    names.addAll(StageReader.LOADS.keySet());
    names.addAll(draft.defines.keySet());
    names.add("uptake");
    for (String name : names) {
      defined.meaning(name).ifPresent(symbol -> ofStage.put("stage." + name, symbol));
    }
    return defined.with(ofStage);
  }
}
