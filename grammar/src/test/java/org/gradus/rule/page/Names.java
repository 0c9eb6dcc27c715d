package org.gradus.rule.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.SolvableEquation;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Symbol.Role;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** Reads the block that lists the names of the examples. */
final class Names {

  private static final List<String> VIEWS =
      List.of("resting.", "upright.", "previous_stage.", "at_finish.");

  private final Map<String, Symbol> symbols = new LinkedHashMap<>();

  private Names() {}

  static Map<String, Symbol> of(String block) {
    Names names = new Names();
    block.lines().forEach(line -> names.line(line.split("\\s+", 3)));
    return names.symbols;
  }

  // NAME  what it is  of what kind
  private void line(String[] parts) {
    String name = parts[0];
    String rest = parts[2];
    switch (parts[1]) {
      case "signal" -> signal(name, type(rest));
      case "load" -> load(name, type(rest));
      case "sign" -> datum(name, type(rest), Role.SIGN);
      case "setting" -> symbols.put(name, setting(rest));
      case "equation" -> symbols.put(name, equation(name, rest));
      case "table" -> symbols.put(name, table(name, rest));
      default -> datum(name, type(rest), Role.FACT);
    }
  }

  private void signal(String name, Type type) {
    datum(name, type, Role.SIGNAL);
    VIEWS.forEach(view -> datum(view + name, type, Role.FACT));
    symbols.put("stage." + name, Optional.ofNullable(symbols.get(name)).orElseThrow());
  }

  private void load(String name, Type type) {
    datum(name, type, Role.FACT);
    datum("previous_stage." + name, type, Role.FACT);
    symbols.put("stage." + name, Optional.ofNullable(symbols.get(name)).orElseThrow());
  }

  private void datum(String name, Type type, Role role) {
    symbols.put(name, new Symbol.Datum(Demand.value(name, type), role));
  }

  static Type type(String words) {
    if (words.equals("yes-no")) {
      return Type.CONDITION;
    } else if (words.startsWith("one of ")) {
      return new Type.Choice(words(words.substring("one of ".length())));
    }
    return new Type.Measure(kind(words));
  }

  private static Kind kind(String word) {
    return Kind.named(word).orElseThrow(() -> new AssertionError("no kind: " + word));
  }

  private static List<String> words(String list) {
    return List.of(list.split(",\\s*", -1));
  }

  private static Symbol setting(String text) {
    if (text.contains(" of ")) {
      String[] parts = text.split(" of ", 2);
      return new Symbol.Word(parts[0], words(parts[1]));
    }
    return new Symbol.Figure(quantity(text));
  }

  // LOAD, LOAD: what it works out
  private static Symbol equation(String name, String text) {
    String[] parts = text.split(":\\s*", 2);
    Span body = Span.all("example", parts[1]);
    return new Symbol.Solvable(
        new SolvableEquation(
            name,
            words(parts[0]),
            RuleText.expression(body, new Problems()).orElseThrow(AssertionError::new)));
  }

  // KIND to KIND: x y, x y, ...
  private static Symbol table(String name, String text) {
    String[] parts = text.split(":\\s*", 2);
    String[] kinds = parts[0].split(" to ", 2);
    List<Table.Point> points = new ArrayList<>();
    Stream.of(parts[1].split(";\\s*", -1))
        .map(row -> row.split(" gives ", -1))
        .forEach(
            row -> points.add(new Table.Point(quantity(row[0]).base(), quantity(row[1]).base())));
    return new Symbol.Tabled(
        new Table(
            name, kind(kinds[0]), kind(kinds[1]), points, Table.Between.LINE, Table.Beyond.REFUSE));
  }

  static Quantity quantity(String text) {
    return RuleText.quantity(Span.all("example", text), new Problems())
        .orElseThrow(() -> new AssertionError("no quantity: " + text));
  }
}
