package org.gradus.rule.page;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.SourceFile;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.Rule;
import org.gradus.rule.check.Checker;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * One example of the page: lines of givens and definitions, the text itself, and lines that say
 * what it comes to.
 */
final class Example {

  private final Page.Block block;
  private final SourceFile file;
  private final List<String> givens = new ArrayList<>();
  private final List<Definitions.Written> definitions = new ArrayList<>();
  final List<String> expected = new ArrayList<>();
  private int start = -1;
  private int end;
  final Problems problems = new Problems();
  private final Layout.Builder layout = new Layout.Builder();
  private Vocabulary vocabulary;

  Example(Page.Block block, Map<String, Symbol> names) {
    this.block = block;
    this.file = SourceFile.of("example", block.text());
    int at = 0;
    for (String line : block.text().split("\n", -1)) {
      line(line, at);
      at += line.length() + 1;
    }
    this.vocabulary = Vocabulary.of(Given.with(givens, names));
    this.vocabulary = Definitions.check(definitions, vocabulary, layout, problems);
  }

  private void line(String line, int at) {
    if (line.startsWith("given ")) {
      givens.addAll(List.of(line.substring("given ".length()).split(";\\s*", -1)));
    } else if (line.startsWith("define ")) {
      define(line, at);
    } else if (line.startsWith("= ")
        || line.startsWith("shown: ")
        || line.startsWith("marginal: ")
        || line.startsWith("| ")
        || line.equals("firm")) {
      expected.add(line);
    } else {
      start = start < 0 ? at : start;
      end = at + line.length();
    }
  }

  private void define(String line, int at) {
    int name = at + "define ".length();
    int colon = at + line.indexOf(':');
    Span body = new Span(file, colon + 1, at + line.length());
    Optional<Expression> tree = RuleText.expression(body, problems);
    Definitions.Line only = new Definitions.Line("", List.of(), tree);
    Span where = new Span(file, name, colon);
    definitions.add(new Definitions.Written(where.text(), where, List.of(only)));
  }

  private Span text() {
    return new Span(file, Math.max(0, start), start < 0 ? 0 : end);
  }

  /** Everything it says. */
  List<String> answers() {
    if (block.kind().equals("rule")) {
      Optional<Rule> rule =
          RuleText.sentence(text(), problems)
              .flatMap(read -> Rule.of(read, vocabulary, layout, problems));
      return rule.map(r -> r.condition().map(this::of).orElse(List.of("= yes"))).orElse(List.of());
    }
    Optional<Expression> tree = RuleText.expression(text(), problems);
    Optional<Type> type =
        tree.flatMap(t -> Checker.any(t, vocabulary, layout, problems)).map(c -> c.type());
    if (type.isEmpty()) {
      return List.of();
    } else if (type.get().equals(Type.CONDITION)) {
      return Condition.of(tree.orElseThrow(), vocabulary, layout, problems)
          .map(this::of)
          .orElseThrow();
    }
    return Formula.of(tree.orElseThrow(), List.of(Kind.values()), vocabulary, layout, problems)
        .map(this::of)
        .orElseThrow();
  }

  private List<String> of(Condition condition) {
    Frame frame = frame();
    return new Answers(expected).of(condition, frame);
  }

  private List<String> of(Formula formula) {
    Frame frame = frame();
    return new Answers(expected).of(formula, frame);
  }

  private Frame frame() {
    Map<String, Given> values = new HashMap<>();
    Given.Line line = null;
    for (String given : givens) {
      if (given.startsWith("stages ")) {
        line = Given.line(given);
      } else {
        Given one = Given.of(given);
        values.put(one.name(), one);
      }
    }
    return new Filling(vocabulary, layout, values, Optional.ofNullable(line)).frame();
  }

  String errors() {
    return problems.sorted().stream().map(Diagnostic::toString).collect(Collectors.joining("\n"));
  }
}
