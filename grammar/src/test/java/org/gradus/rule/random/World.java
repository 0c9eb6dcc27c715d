package org.gradus.rule.random;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.SolvableEquation;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Table;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** The names a random text may use, and the definitions made for it. */
final class World {

  /** A definition as a tree. */
  record Definition(String name, Type type, List<Line> lines) {}

  /** An alternative of a definition as trees. */
  record Line(List<Expression> when, Optional<Expression> value) {}

  final Problems problems = new Problems();
  final Layout.Builder layout = new Layout.Builder();
  final Map<String, Symbol> names = new LinkedHashMap<>();
  final Map<String, Definition> definitions = new LinkedHashMap<>();
  private Vocabulary vocabulary;

  World() {
    signal("heart_rate", Kind.HEART_RATE);
    signal("systolic", Kind.PRESSURE);
    signal("rpe", Kind.NUMBER);
    signal("load", Kind.POWER);
    fact("resting.heart_rate", new Type.Measure(Kind.HEART_RATE));
    fact("stage.time", new Type.Measure(Kind.TIME));
    fact("stage.number", Type.NUMBER);
    fact("speed", new Type.Measure(Kind.SPEED));
    fact("mass", new Type.Measure(Kind.MASS));
    fact("age", new Type.Measure(Kind.AGE));
    fact("uptake", new Type.Measure(Kind.UPTAKE));
    fact("sex", new Type.Choice(List.of("female", "male")));
    fact("gait", new Type.Choice(List.of("walking", "running", "finish")));
    // More words than a long has bits.
    fact("stage", new Type.Choice(IntStream.range(0, 70).mapToObj(i -> "stage_" + i).toList()));
    fact("cleared", Type.CONDITION);
    sign("chest_pain");
    sign("dizzy");
    names.put("steady_band", new Symbol.Figure(Quantity.of(5, Unit.BPM)));
    names.put("ceiling", new Symbol.Figure(Quantity.of(85, Unit.PERCENT)));
    names.put("part", new Symbol.Figure(Quantity.of(0.5, Unit.ONE)));
    names.put("pause", new Symbol.Figure(Quantity.of(1, Unit.MINUTE)));
    names.put("end_rule", new Symbol.Word("early", List.of("early", "late")));
    fact("grade", Type.NUMBER);
    table("by_rate", Kind.HEART_RATE, Kind.NUMBER, Table.Between.LINE, Table.Beyond.REFUSE);
    table("by_pace", Kind.SPEED, Kind.HEART_RATE, Table.Between.LINE, Table.Beyond.NEAREST);
    table("by_effort", Kind.NUMBER, Kind.SPEED, Table.Between.STEP, Table.Beyond.REFUSE);
    table("by_age", Kind.AGE, Kind.NUMBER, Table.Between.STEP, Table.Beyond.NEAREST);
    equation(
        "walking",
        List.of("speed", "grade"),
        "(3.5 + 0.1 * (speed in m/min) + 1.8 * (speed in m/min) * grade) as mL/kg/min");
    equation("cycling", List.of("load"), "(7 + 10.8 * (load in W) / (mass in kg)) as mL/kg/min");
    this.vocabulary = Vocabulary.of(names);
  }

  private void signal(String name, Kind kind) {
    datum(name, new Type.Measure(kind), Symbol.Role.SIGNAL);
  }

  private void fact(String name, Type type) {
    datum(name, type, Symbol.Role.FACT);
  }

  private void sign(String name) {
    datum(name, Type.CONDITION, Symbol.Role.SIGN);
  }

  private void datum(String name, Type type, Symbol.Role role) {
    names.put(name, new Symbol.Datum(Demand.value(name, type), role));
  }

  // Rows that random values often meet, that are not evenly spaced and that rise and fall.
  private void table(String name, Kind of, Kind gives, Table.Between between, Table.Beyond beyond) {
    double low = Readings.lowest(of);
    List<Table.Point> rows =
        List.of(
            new Table.Point(low, 0.1),
            new Table.Point(low + 1, 0.1),
            new Table.Point(low + 20, 3),
            new Table.Point(low + 25, 0.7),
            new Table.Point(low + 40, 120));
    names.put(name, new Symbol.Tabled(new Table(name, of, gives, rows, between, beyond)));
  }

  private void equation(String name, List<String> loads, String body) {
    Expression tree = RuleText.expression(Span.all(name, body), problems).orElseThrow();
    names.put(name, new Symbol.Solvable(new SolvableEquation(name, loads, tree)));
  }

  Vocabulary vocabulary() {
    return vocabulary;
  }

  Symbol symbol(String name) {
    return Optional.ofNullable(names.get(name)).orElseThrow();
  }

  Optional<Definition> definition(String name) {
    return Optional.ofNullable(definitions.get(name));
  }

  /** The names of a type, definitions included. */
  List<String> of(Type type) {
    List<String> found = new ArrayList<>();
    names.forEach(
        (name, symbol) -> {
          boolean hasValue =
              !(symbol instanceof Symbol.Tabled || symbol instanceof Symbol.Solvable);
          if (hasValue && symbol.type().equals(type)) {
            found.add(name);
          }
        });
    definitions.values().stream()
        .filter(definition -> definition.type().equals(type))
        .forEach(definition -> found.add(definition.name()));
    return found;
  }

  /** The tables that give a kind. */
  List<Table> tables(Kind kind) {
    return names.values().stream()
        .filter(symbol -> symbol instanceof Symbol.Tabled tabled && tabled.table().gives() == kind)
        .map(symbol -> ((Symbol.Tabled) symbol).table())
        .toList();
  }

  /** The names in a role. */
  List<String> inRole(Symbol.Role role) {
    return names.keySet().stream()
        .filter(name -> names.get(name) instanceof Symbol.Datum datum && datum.role() == role)
        .toList();
  }

  void define(Definition definition) {
    definitions.put(definition.name(), definition);
    List<Definitions.Line> lines =
        definition.lines().stream()
            .map(
                line ->
                    new Definitions.Line(
                        "",
                        line.when().stream().map(this::parsed).toList(),
                        line.value().map(this::parsed)))
            .toList();
    Span where = Span.all("definitions", definition.name());
    vocabulary =
        Definitions.check(
            List.of(new Definitions.Written(definition.name(), where, lines)),
            vocabulary,
            layout,
            problems);
  }

  /** A tree as it comes back from its text. */
  Expression parsed(Expression tree) {
    return RuleText.expression(Span.all("test", Printer.text(tree)), problems)
        .orElseThrow(() -> new AssertionError(problems.sorted().toString()));
  }
}
