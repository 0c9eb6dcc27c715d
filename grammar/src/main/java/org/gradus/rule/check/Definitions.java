package org.gradus.rule.check;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression;

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
  private final Map<String, Symbol> done = new HashMap<>();
  private final Deque<String> open = new ArrayDeque<>();
  private final Vocabulary base;
  private final Layout.Builder layout;
  private final Problems problems;

  private Definitions(
      List<Written> definitions, Vocabulary base, Layout.Builder layout, Problems problems) {
    definitions.forEach(definition -> written.put(definition.name(), definition));
    this.base = base;
    this.layout = layout;
    this.problems = problems;
  }

  /** The vocabulary together with these definitions, which may use it and each other. */
  public static Vocabulary check(
      List<Written> definitions, Vocabulary base, Layout.Builder layout, Problems problems) {
    Definitions work = new Definitions(definitions, base, layout, problems);
    definitions.forEach(work::resolve);
    return base.with(work.done);
  }

  private void resolve(Written definition) {
    if (done.containsKey(definition.name())) {
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
      done.put(definition.name(), new Symbol.Faulty());
      return;
    }
    if (open.size() > Extent.MOST_DEEP) {
      problems.add(
          definition.where(),
          Code.G105,
          "more definitions inside each other than anybody could follow",
          Integer.toString(Extent.MOST_DEEP),
          "let fewer definitions rest on each other");
      done.put(definition.name(), new Symbol.Faulty());
      return;
    }
    open.push(definition.name());
    for (Line line : definition.lines()) {
      line.when().forEach(this::resolveUses);
      line.value().ifPresent(this::resolveUses);
    }
    open.pop();
    done.putIfAbsent(definition.name(), checked(definition));
  }

  private void resolveUses(Expression part) {
    if (part instanceof Expression.Reference reference) {
      Optional.ofNullable(written.get(reference.name())).ifPresent(this::resolve);
    }
    part.parts().forEach(this::resolveUses);
  }

  private Symbol checked(Written definition) {
    Vocabulary vocabulary = base.with(done);
    List<Term.Alternative> alternatives = new ArrayList<>();
    Optional<Type> type = Optional.empty();
    int before = problems.count();
    for (Line line : definition.lines()) {
      List<Checked> when = new ArrayList<>();
      for (Expression condition : line.when()) {
        Checker.condition(condition, vocabulary, layout, problems).ifPresent(when::add);
      }
      Optional<Checked> value =
          line.value().flatMap(expression -> Checker.any(expression, vocabulary, layout, problems));
      boolean unlike =
          type.isPresent() && value.isPresent() && !type.get().equals(value.get().type());
      if (unlike) {
        Span where = value.get().root().span();
        problems.add(where, Code.G216, type.get().phrase(), value.get().type().phrase());
      }
      value
          .filter(found -> found.type() instanceof Type.Choice)
          .ifPresent(
              word ->
                  problems.add(
                      word.root().span(),
                      Code.G208,
                      word.type().phrase(),
                      "define a condition with is"));
      type = type.or(() -> value.map(Checked::type));
      alternatives.add(new Term.Alternative(line.label(), when, value));
    }
    boolean sound = problems.count() == before && type.isPresent();
    return sound
        ? new Symbol.Definition(
            new Term(definition.name(), type.get(), layout.nextTerm(), alternatives))
        : new Symbol.Faulty();
  }
}
