package org.gradus.rule;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.SolvableEquation;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Table;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.Sentence;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** A small world of names for the tests of the language, with a frame to put readings in. */
final class Bench {

  final Problems problems = new Problems();
  final Layout.Builder layout = new Layout.Builder();
  private Vocabulary vocabulary;
  private final Map<Demand, Double> readings = new HashMap<>();
  private final Map<Demand, Double> halves = new HashMap<>();
  private final Map<Demand, Double> taken = new HashMap<>();

  Bench() {
    Map<String, Symbol> names = new HashMap<>();
    for (String signal : List.of("heart_rate", "resting.heart_rate", "max_heart_rate")) {
      names.put(signal, datum(signal, new Type.Measure(Kind.HEART_RATE), Symbol.Role.SIGNAL));
    }
    names.put("systolic", datum("systolic", new Type.Measure(Kind.PRESSURE), Symbol.Role.SIGNAL));
    names.put("rpe", datum("rpe", Type.NUMBER, Symbol.Role.SIGNAL));
    names.put("speed", datum("speed", new Type.Measure(Kind.SPEED), Symbol.Role.FACT));
    names.put("grade", datum("grade", Type.NUMBER, Symbol.Role.FACT));
    names.put("mass", datum("mass", new Type.Measure(Kind.MASS), Symbol.Role.FACT));
    names.put("age", datum("age", new Type.Measure(Kind.AGE), Symbol.Role.FACT));
    names.put("uptake", datum("uptake", new Type.Measure(Kind.UPTAKE), Symbol.Role.FACT));
    names.put("sex", datum("sex", new Type.Choice(List.of("female", "male")), Symbol.Role.FACT));
    names.put(
        "gait", datum("gait", new Type.Choice(List.of("walking", "running")), Symbol.Role.FACT));
    names.put("word", datum("word", new Type.Choice(List.of("slow", "fast")), Symbol.Role.SIGNAL));
    names.put("chest_pain", datum("chest_pain", Type.CONDITION, Symbol.Role.SIGN));
    names.put("cleared", datum("cleared", Type.CONDITION, Symbol.Role.FACT));
    names.put(
        "walking",
        solvable(
            "walking",
            "(3.5 + 0.1 * (speed in m/min) + 1.8 * (speed in m/min) * grade) as mL/kg/min"));
    names.put("bent", solvable("bent", "(3.5 + grade * grade) as mL/kg/min"));
    names.put(
        "age_factor",
        new Symbol.Tabled(
            new Table(
                "age_factor",
                Kind.AGE,
                Kind.NUMBER,
                List.of(
                    new Table.Point(25, 1), new Table.Point(35, 0.87), new Table.Point(40, 0.83)),
                Table.Between.LINE,
                Table.Beyond.REFUSE)));
    names.put(
        "stage", datum("stage", new Type.Choice(List.of("walk_1", "walk_2")), Symbol.Role.FACT));
    names.put("steady_band", new Symbol.Figure(Quantity.of(5, Unit.BPM)));
    names.put("ceiling", new Symbol.Figure(Quantity.of(85, Unit.PERCENT)));
    names.put("pause", new Symbol.Figure(Quantity.of(1, Unit.MINUTE)));
    names.put(
        "end_rule", new Symbol.Word("near_ceiling", List.of("near_ceiling", "two_in_window")));
    this.vocabulary = Vocabulary.of(names);
  }

  private static Symbol datum(String name, Type type, Symbol.Role role) {
    return new Symbol.Datum(Demand.value(name, type), role);
  }

  private static Symbol solvable(String name, String body) {
    Expression equation = RuleText.expression(text(body), new Problems()).orElseThrow();
    return new Symbol.Solvable(new SolvableEquation(name, List.of("speed", "grade"), equation));
  }

  static Span text(String text) {
    return Span.all("test", text);
  }

  Bench define(String name, String text) {
    return define(name, List.of(new Definitions.Line("", List.of(), Optional.of(tree(text)))));
  }

  /** Defines a choice from lines such as {@code "slow: 1 if rpe > 3"}; the value may be none. */
  Bench choose(String name, String... lines) {
    return define(name, Stream.of(lines).map(this::line).toList());
  }

  private Definitions.Line line(String line) {
    String label = line.substring(0, line.indexOf(':'));
    String[] rest = line.substring(line.indexOf(':') + 1).split(" if ", 2);
    List<Expression> when = rest.length == 2 ? List.of(tree(rest[1])) : List.of();
    boolean none = rest[0].strip().equals("none");
    return new Definitions.Line(label, when, none ? Optional.empty() : Optional.of(tree(rest[0])));
  }

  private Bench define(String name, List<Definitions.Line> lines) {
    vocabulary =
        Definitions.check(
            List.of(new Definitions.Written(name, text(name), lines)),
            vocabulary,
            layout,
            problems);
    return this;
  }

  private Expression tree(String text) {
    return RuleText.expression(text(text), problems).orElseThrow(this::failure);
  }

  Condition condition(String text) {
    return RuleText.expression(text(text), problems)
        .flatMap(tree -> Condition.of(tree, vocabulary, layout, problems))
        .orElseThrow(this::failure);
  }

  Formula formula(String text, Kind kind) {
    return RuleText.expression(text(text), problems)
        .flatMap(tree -> Formula.of(tree, List.of(kind), vocabulary, layout, problems))
        .orElseThrow(this::failure);
  }

  Rule rule(String text) {
    Sentence sentence = RuleText.sentence(text(text), problems).orElseThrow(this::failure);
    return Rule.of(sentence, vocabulary, layout, problems).orElseThrow(this::failure);
  }

  /** What is wrong with a text; the text must be wrong. */
  String refusal(String text) {
    Problems found = new Problems();
    RuleText.sentence(text(text), found)
        .ifPresent(sentence -> Rule.of(sentence, vocabulary, new Layout.Builder(), found));
    return found.sorted().stream()
        .map(Object::toString)
        .reduce((a, b) -> a + "\n" + b)
        .orElse("nothing");
  }

  private AssertionError failure() {
    return new AssertionError(problems.sorted().toString());
  }

  Bench read(String name, double base) {
    return read(name, base, 0);
  }

  Bench read(String name, double base, double half) {
    return read(demand(name), base, half);
  }

  Bench earlier(String name, double seconds, double base, double half) {
    Demand now = demand(name);
    return read(new Demand(Demand.Aspect.EARLIER, now.subjects(), seconds, now.type()), base, half);
  }

  private Bench read(Demand demand, double base, double half) {
    readings.put(demand, base);
    halves.put(demand, half);
    return this;
  }

  /** Says when the value of a name was taken. */
  Bench taken(String name, double seconds) {
    taken.put(demand(name), seconds);
    return this;
  }

  private Demand demand(String name) {
    return ((Symbol.Datum) vocabulary.meaning(name).orElseThrow()).demand();
  }

  Frame frame() {
    Layout built = layout.build();
    Frame frame = new Frame(built);
    for (int slot = 0; slot < built.size(); slot++) {
      Demand demand = built.demands().get(slot);
      Double value = readings.get(demand);
      if (value == null) {
        frame.miss(slot, Gap.now(demand.subject(), Gap.Cause.NEVER_TAKEN));
      } else {
        double half = halves.getOrDefault(demand, 0.0);
        frame.set(slot, value, half, taken.getOrDefault(demand, Double.NaN));
      }
    }
    return frame;
  }
}
