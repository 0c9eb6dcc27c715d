package org.gradus.rule.conformance;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.SolvableEquation;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Symbol.Role;
import org.gradus.rule.check.Table;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** The names that all cases may use, from {@code names.yaml}. */
final class Names {

  private final Map<String, Symbol> symbols = new HashMap<>();

  private Names(Map<String, Object> file) {
    each(file, "signals", (name, node) -> datum(name, measure(node), Role.SIGNAL));
    each(file, "values", (name, node) -> datum(name, measure(node), Role.FACT));
    each(file, "choices", (name, node) -> datum(name, new Type.Choice(words(node)), Role.FACT));
    Yaml.list(file.getOrDefault("answers", List.of()))
        .forEach(name -> datum(Yaml.text(name), Type.CONDITION, Role.FACT));
    Yaml.list(file.getOrDefault("signs", List.of()))
        .forEach(name -> datum(Yaml.text(name), Type.CONDITION, Role.SIGN));
    each(file, "settings", this::setting);
    each(file, "tables", (name, node) -> table(name, Yaml.map(node)));
    each(file, "equations", (name, node) -> equation(name, Yaml.map(node)));
  }

  static Vocabulary vocabulary() {
    Map<String, Object> file =
        Yaml.files().stream()
            .filter(path -> path.endsWith("names.yaml"))
            .findFirst()
            .map(Yaml::read)
            .orElseThrow();
    return Vocabulary.of(new Names(file).symbols);
  }

  private interface Entry {
    void read(String name, Object node);
  }

  private static void each(Map<String, Object> file, String key, Entry entry) {
    Yaml.map(file.getOrDefault(key, Map.of())).forEach(entry::read);
  }

  private void datum(String name, Type type, Role role) {
    symbols.put(name, new Symbol.Datum(Demand.value(name, type), role));
  }

  private static Type measure(Object node) {
    return new Type.Measure(kind(node));
  }

  private static Kind kind(Object node) {
    return Kind.named(Yaml.text(node)).orElseThrow();
  }

  private static List<String> words(Object node) {
    return Yaml.list(node).stream().map(Yaml::text).toList();
  }

  private void setting(String name, Object node) {
    if (node instanceof String text) {
      symbols.put(name, new Symbol.Figure(quantity(text)));
    } else {
      List<String> words = words(node);
      symbols.put(name, new Symbol.Word(words.get(0), words));
    }
  }

  static Quantity quantity(String text) {
    Problems problems = new Problems();
    return RuleText.quantity(Span.all("quantity", text), problems)
        .orElseThrow(() -> new IllegalArgumentException(text + ": " + problems.sorted()));
  }

  private void table(String name, Map<String, Object> node) {
    List<Table.Point> rows =
        Yaml.texts(node.getOrDefault("rows", Map.of())).entrySet().stream()
            .map(row -> new Table.Point(base(row.getKey()), base(row.getValue())))
            .toList();
    boolean steps = "step".equals(node.get("between"));
    boolean nearest = "nearest".equals(node.get("beyond"));
    symbols.put(
        name,
        new Symbol.Tabled(
            new Table(
                name,
                kind(node.getOrDefault("of", "")),
                kind(node.getOrDefault("gives", "")),
                rows,
                steps ? Table.Between.STEP : Table.Between.LINE,
                nearest ? Table.Beyond.NEAREST : Table.Beyond.REFUSE)));
  }

  private static double base(String quantity) {
    return quantity(quantity).base();
  }

  private void equation(String name, Map<String, Object> node) {
    Span text = Span.all(name, Yaml.text(node.getOrDefault("gives", "")));
    Problems problems = new Problems();
    symbols.put(
        name,
        new Symbol.Solvable(
            new SolvableEquation(
                name,
                words(node.getOrDefault("of", "")),
                RuleText.expression(text, problems)
                    .orElseThrow(() -> new IllegalArgumentException(problems.sorted() + "")))));
  }
}
