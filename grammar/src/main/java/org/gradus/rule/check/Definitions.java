package org.gradus.rule.check;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Type;

/** Checks the definitions of a protocol, each after those it rests on, and finds circles. */
public final class Definitions {

  /**
   * A definition as it was written.
   *
   * @param name its name
   * @param where the name in the file
   * @param lines its alternatives; a plain definition has one
   */
  public record Written(String name, Span where, List<Line> lines) {
    public Written {
      lines = List.copyOf(lines);
    }
  }

  /**
   * One alternative as it was written.
   *
   * @param label what it is called where it was chosen from a list, else empty
   * @param when the conditions under which it applies
   * @param value the value; empty for none
   */
  public record Line(String label, List<Expression> when, Optional<Expression> value) {
    public Line {
      when = List.copyOf(when);
    }
  }

  private final Map<String, Written> written = new LinkedHashMap<>();
  private final Set<String> done = new HashSet<>();
  private final Deque<String> open = new ArrayDeque<>();
  private final Map<String, Symbol> symbols;
  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Problems problems;

  private Definitions(
      List<Written> definitions, Vocabulary base, Layout.Builder layout, Problems problems) {
    definitions.forEach(definition -> written.put(definition.name(), definition));
    this.symbols = base.copy();
    this.vocabulary = Vocabulary.over(symbols);
    this.layout = layout;
    this.problems = problems;
  }

  /** The vocabulary together with these definitions, which may use it and each other. */
  public static Vocabulary check(
      List<Written> definitions, Vocabulary base, Layout.Builder layout, Problems problems) {
    Definitions work = new Definitions(definitions, base, layout, problems);
    definitions.forEach(work::resolve);
    return Vocabulary.of(work.symbols);
  }

  private void resolve(Written definition) {
    if (done.contains(definition.name())) {
      return;
    }
    if (open.contains(definition.name())) {
      List<String> circle = new ArrayList<>(List.of(definition.name()));
      for (String name : open) {
        circle.add(0, name);
        if (name.equals(definition.name())) {
          break;
        }
      }
      problems.add(definition.where(), Code.G215, definition.name(), String.join(" -> ", circle));
      finish(definition, new Symbol.Faulty());
      return;
    }
    if (open.size() > TreeSize.MOST_DEEP) {
      problems.add(
          definition.where(),
          Code.G105,
          "more definitions inside each other than anybody could follow",
          Integer.toString(TreeSize.MOST_DEEP),
          "let fewer definitions rest on each other");
      finish(definition, new Symbol.Faulty());
      return;
    }
    open.push(definition.name());
    for (Line line : definition.lines()) {
      line.when().forEach(this::resolveUses);
      line.value().ifPresent(this::resolveUses);
    }
    open.pop();
    // One that closes a circle has been found faulty on the way.
    if (!done.contains(definition.name())) {
      finish(definition, checked(definition));
    }
  }

  private void finish(Written definition, Symbol symbol) {
    done.add(definition.name());
    symbols.put(definition.name(), symbol);
  }

  private void resolveUses(Expression part) {
    if (part instanceof Expression.Reference reference) {
      Optional.ofNullable(written.get(reference.name())).ifPresent(this::resolve);
    }
    part.parts().forEach(this::resolveUses);
  }

  private Symbol checked(Written definition) {
    List<Term.Alternative> alternatives = new ArrayList<>();
    Optional<Type> type = Optional.empty();
    int before = problems.count();
    boolean complete = true;
    for (Line line : definition.lines()) {
      List<Checked> when = new ArrayList<>();
      for (Expression condition : line.when()) {
        Checker.condition(condition, vocabulary, layout, problems).ifPresent(when::add);
      }
      Optional<Checked> value =
          line.value().flatMap(expression -> Checker.any(expression, vocabulary, layout, problems));
      complete &=
          when.size() == line.when().size() && value.isPresent() == line.value().isPresent();
      Optional<Type> first = type;
      value.ifPresent(found -> checkType(found, first));
      type = type.or(() -> value.map(Checked::type));
      alternatives.add(new Term.Alternative(line.label(), when, value));
    }
    if (complete && type.isEmpty()) {
      problems.add(definition.where(), Code.G303, definition.name(), "value");
    }
    // What rests on something faulty is faulty too, without a word of its own.
    return complete && problems.count() == before
        ? new Symbol.Definition(
            new Term(definition.name(), type.orElseThrow(), layout.nextTerm(), alternatives))
        : new Symbol.Faulty();
  }

  private void checkType(Checked value, Optional<Type> first) {
    Span where = value.root().span();
    if (first.isPresent() && !first.get().equals(value.type())) {
      problems.add(where, Code.G216, first.get().phrase(), value.type().phrase());
    } else if (value.type() instanceof Type.Choice word) {
      problems.add(where, Code.G208, word.phrase(), "define a condition with is");
    }
  }
}
