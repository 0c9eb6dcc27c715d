package org.gradus.library;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Signal;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Definitions.Line;
import org.gradus.rule.check.Definitions.Written;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.SolvableEquation;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Symbol.Role;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** Gives every name that a protocol's rules may use its meaning. */
final class Names {

  /** What a test is given for. Only rules that look at results may speak of it. */
  static final String VO2MAX = "vo2max";

  private static final String MAX_HEART_RATE = "max_heart_rate";
  private static final String UPTAKE = "uptake";

  /** Names that a protocol gives a meaning by what it has. */
  static final Set<String> OWN =
      Set.of(VO2MAX, MAX_HEART_RATE, UPTAKE, Instruments.CLEARED_AFTER_STOP, "stage");

  private static final Type TIME = new Type.Measure(Kind.TIME);

  private final Draft draft;
  private final Shelf shelf;
  private final Problems problems;
  private final Map<String, Symbol> symbols = new LinkedHashMap<>();
  private final Map<String, Fact> facts = new LinkedHashMap<>();
  private final Set<String> unusable = new HashSet<>();

  private Names(Draft draft, Shelf shelf, Problems problems) {
    this.draft = draft;
    this.shelf = shelf;
    this.problems = problems;
  }

  /**
   * The vocabulary of a protocol.
   *
   * @param vocabulary what its names mean
   * @param facts what they stand for in a test
   */
  record Known(Vocabulary vocabulary, Map<String, Fact> facts) {}

  static Known of(
      Draft draft,
      Shelf shelf,
      Map<String, Setting> settings,
      Function<Setting, Symbol> meaning,
      Layout.Builder layout,
      Problems problems) {
    Names names = new Names(draft, shelf, problems);
    names.people();
    names.loads();
    names.clocks();
    names.rounds();
    names.settings(settings, meaning);
    names.readings(layout);
    names.tellings();
    names.facts.putIfAbsent(VO2MAX, new Fact.Result(VO2MAX));
    draft.results.forEach(
        result -> names.facts.putIfAbsent(result.id(), new Fact.Result(result.id())));
    names.tables();
    names.equations();
    List<Written> definitions = names.definitions();
    names.passOver(definitions);
    Vocabulary defined =
        Definitions.check(definitions, Vocabulary.of(names.symbols), layout, problems);
    return new Known(names.withStage(defined), names.facts);
  }

  private void people() {
    for (Attribute attribute : Attribute.values()) {
      fact(attribute.word(), attribute.type(), Role.FACT, new Fact.Attribute(attribute));
    }
  }

  private void loads() {
    shelf
        .equipment
        .kinds()
        .forEach(
            (name, kind) -> {
              Type type = new Type.Measure(kind);
              fact(name, type, Role.FACT, new Fact.Load(name));
              fact("previous_stage." + name, type, Role.FACT, new Fact.PreviousLoad(name));
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

  // A block gives its rounds a number; all its stages know where it stands.
  private void rounds() {
    Map<String, Span> blocks = new LinkedHashMap<>();
    for (StageDraft stage : draft.stages) {
      stage.round().ifPresent(round -> round(round.block(), blocks));
    }
  }

  private void round(Scalar block, Map<String, Span> blocks) {
    Span first = blocks.putIfAbsent(block.value(), block.span());
    String name = block.value() + ".number";
    if (first == null && isFree(name, block.span())) {
      fact(name, Type.NUMBER, Role.FACT, new Fact.Round(block.value()));
    } else if (first != null && !first.equals(block.span())) {
      unusable.add(name);
      if (blocks.putIfAbsent(block.value() + " again", block.span()) == null) {
        problems.add(block.span(), Code.G306, "the block " + block.value());
      }
    }
  }

  private void settings(Map<String, Setting> settings, Function<Setting, Symbol> meaning) {
    settings.forEach(
        (name, setting) -> {
          Placed<Setting> placed = Optional.ofNullable(draft.settings.get(name)).orElseThrow();
          if (isFree(name, placed.where())) {
            symbols.put(name, meaning.apply(setting));
          }
        });
  }

  private void readings(Layout.Builder layout) {
    draft.signals.forEach(
        (name, placed) -> {
          Signal signal = placed.value();
          if (isFree(name, placed.where())) {
            reading(name, signal, Role.SIGNAL, new Fact.Read(name), layout);
            Fact before = new Fact.PreviousReading(name);
            reading("previous_stage." + name, signal, Role.FACT, before, layout);
            reading("at_finish." + name, signal, Role.FACT, new Fact.AtFinish(name), layout);
            for (Posture posture : Posture.values()) {
              Fact baseline = new Fact.Baseline(posture, name);
              reading(posture.word() + "." + name, signal, Role.FACT, baseline, layout);
            }
          }
        });
    List<MeasureDraft> lines = new ArrayList<>(draft.measure);
    draft.recovery.ifPresent(recovery -> lines.addAll(recovery.measure()));
    lines.forEach(line -> line.named().ifPresent(name -> named(name, line, layout)));
  }

  private void reading(String name, Signal signal, Role role, Fact fact, Layout.Builder layout) {
    fact(name, signal.type(), role, fact);
    if (signal.type() instanceof Type.Measure) {
      layout.show(name, signal.unit());
    }
  }

  private void tables() {
    draft.tables.forEach(
        (name, placed) -> {
          if (isFree(name, placed.where())) {
            symbols.put(name, new Symbol.Tabled(placed.value().table()));
          }
        });
  }

  // A name of the protocol's own comes before that of an equation.
  private void equations() {
    shelf.costs.forEach(
        (name, cost) -> {
          boolean own =
              symbols.containsKey(name)
                  || draft.defines.containsKey(name)
                  || draft.faulty.contains(name);
          if (!own) {
            SolvableEquation equation = new SolvableEquation(name, cost.loads(), cost.uptake());
            symbols.put(name, new Symbol.Solvable(equation));
          }
        });
  }

  private void named(Scalar name, MeasureDraft line, Layout.Builder layout) {
    Optional<Signal> signal =
        Optional.ofNullable(draft.signals.get(line.read().get(0).value())).map(Placed::value);
    if (isFree(name.value(), name.span())) {
      signal.ifPresentOrElse(
          read -> {
            Fact fact = new Fact.Named(name.value(), line.read().get(0).value());
            reading(name.value(), read, Role.FACT, fact, layout);
          },
          () -> draft.faulty.add(name.value()));
    }
  }

  private void tellings() {
    draft.questions.forEach(
        (name, ask) -> {
          if (isFree(name, ask.where())) {
            fact(name, ask.value().type(), Role.FACT, new Fact.Answer(name));
          }
        });
    draft.signs.forEach(
        (name, sign) -> {
          if (isFree(name, sign.where())) {
            fact(name, sign.value().type(), Role.SIGN, new Fact.Reported(name));
          }
        });
  }

  private void fact(String name, Type type, Role role, Fact fact) {
    symbols.put(name, new Symbol.Datum(Demand.value(name, type), role));
    facts.put(name, fact);
  }

  // A name means one thing.
  private boolean isFree(String name, Span where) {
    boolean chosen =
        (name.equals(MAX_HEART_RATE) && !draft.maxHeartRate.isEmpty())
            || (name.equals(UPTAKE) && !draft.cost.isEmpty())
            || name.equals(VO2MAX)
            || name.equals(Instruments.CLEARED_AFTER_STOP);
    boolean free = !chosen && !symbols.containsKey(name);
    if (!free) {
      unusable.add(name);
      problems.add(
          where, Code.G305, name, "a free name", "it means something else already; choose another");
    }
    return free;
  }

  private List<Written> definitions() {
    List<Written> written = new ArrayList<>();
    draft.defines.forEach(
        (name, placed) -> {
          if (isFree(name, placed.where())) {
            Line line = new Line("", List.of(), Optional.of(placed.value().body()));
            written.add(new Written(name, placed.where(), List.of(line)));
          }
        });
    Choices choices = new Choices(shelf, problems);
    choose(MAX_HEART_RATE, draft.maxHeartRate, choices::maxHeartRate, written);
    choose(UPTAKE, draft.cost, choices::cost, written);
    return written;
  }

  private void choose(
      String name,
      List<ChoiceLine> lines,
      Function<ChoiceLine, Optional<Line>> meaning,
      List<Written> written) {
    List<Line> meant = lines.stream().flatMap(line -> meaning.apply(line).stream()).toList();
    if (meant.size() < lines.size()) {
      unusable.add(name);
    } else if (!lines.isEmpty()) {
      written.add(new Written(name, lines.get(0).span(), meant));
    }
  }

  // A name whose declaration is wrong, or may stand in a part that could not be read, is no slip of
  // those who use it.
  private void passOver(List<Written> definitions) {
    Set<String> defined = new HashSet<>(symbols.keySet());
    definitions.forEach(definition -> defined.add(definition.name()));
    Set<String> names = new HashSet<>(draft.faulty);
    if (draft.lost.contains("cost")) {
      names.add(UPTAKE);
    }
    if (draft.lost.contains(MAX_HEART_RATE)) {
      names.add(MAX_HEART_RATE);
    }
    for (String name : List.copyOf(names)) {
      names.addAll(List.of("stage." + name, "previous_stage." + name, "at_finish." + name));
      for (Posture posture : Posture.values()) {
        names.add(posture.word() + "." + name);
      }
    }
    if (draft.torn) {
      draft.expressions().forEach(part -> collect(part, names));
    }
    names.removeAll(defined);
    names.addAll(unusable);
    for (String name : names) {
      symbols.put(name, new Symbol.Faulty());
    }
  }

  private static void collect(Expression part, Set<String> names) {
    if (part instanceof Expression.Reference reference) {
      names.add(reference.name());
    }
    part.parts().forEach(inner -> collect(inner, names));
  }

  // stage.X is X as it stands at the end of the stage that is looked at.
  private Vocabulary withStage(Vocabulary defined) {
    Map<String, Symbol> ofStage = new LinkedHashMap<>();
    Set<String> names = new LinkedHashSet<>(draft.signals.keySet());
    names.addAll(shelf.equipment.loads().keySet());
    names.addAll(draft.defines.keySet());
    names.add(UPTAKE);
    draft.measure.forEach(line -> line.named().map(Scalar::value).ifPresent(names::add));
    for (String name : names) {
      defined.meaning(name).ifPresent(symbol -> ofStage.put("stage." + name, symbol));
    }
    return defined.with(ofStage);
  }
}
