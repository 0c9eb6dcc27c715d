package org.gradus.rule.syntax;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.Function;
import org.antlr.v4.runtime.ParserRuleContext;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/**
 * Reads the texts of the rule language. Each method takes the stretch of a file in which a text
 * stands and gives its tree, or notes the first thing that is wrong with it and gives nothing. Each
 * throws {@link IllegalStateException} when the class path holds a version of the ANTLR runtime
 * that cannot run the parser.
 */
public final class RuleText {

  private RuleText() {}

  /** A whole rule: {@code hold 1 min at most 2 times when not steady}. */
  public static Optional<Sentence> sentence(Span text, Problems problems) {
    return read(
        text, problems, GradusParser::ruleText, tree -> tree.sentence(), TreeBuilder::sentence);
  }

  /** A condition or a value: {@code abs(change(heart_rate, 1 min)) <= steady_band}. */
  public static Optional<Expression> expression(Span text, Problems problems) {
    return read(
        text, problems, GradusParser::expression, tree -> tree.expr(), TreeBuilder::expression);
  }

  /** A quantity: {@code 1.7 mph}. */
  public static Optional<Quantity> quantity(Span text, Problems problems) {
    return read(
        text, problems, GradusParser::quantityText, tree -> tree.quantity(), TreeBuilder::quantity);
  }

  /** Two quantities: {@code 120 bpm to 150 bpm}. */
  public static Optional<QuantityRange> range(Span text, Problems problems) {
    return read(text, problems, GradusParser::rangeText, tree -> tree, TreeBuilder::range);
  }

  /** A choice of stages: {@code usable stages, at least 2}. */
  public static Optional<Selection> selection(Span text, Problems problems) {
    return read(
        text,
        problems,
        GradusParser::selectionText,
        tree -> tree.selection(),
        TreeBuilder::selection);
  }

  /** A line of a list of choices: {@code running when gait is running}. */
  public static Optional<ChoiceLine> choiceLine(Span text, Problems problems) {
    return read(text, problems, GradusParser::choiceText, tree -> tree, TreeBuilder::choiceLine);
  }

  private interface Build<C, T> {
    T from(TreeBuilder builder, C tree);
  }

  private static <R extends ParserRuleContext, C, T> Optional<T> read(
      Span text,
      Problems problems,
      Function<GradusParser, R> entry,
      Function<R, C> part,
      Build<C, T> build) {
    int before = problems.count();
    Tokens tokens = Tokens.of(text);
    if (!tokens.areWithinLimits(problems)) {
      return Optional.empty();
    }
    GradusParser parser = new GradusParser(tokens.stream());
    parser.removeErrorListeners();
    parser.setErrorHandler(new FirstError(tokens, problems));
    R tree;
    try {
      tree = entry.apply(parser);
    } catch (FirstError.Found found) {
      return Optional.empty();
    }
    T built = build.from(new TreeBuilder(tokens, problems), part.apply(tree));
    return problems.count() == before ? Optional.of(built) : Optional.empty();
  }

  /** Whether a word is one of those that begin a rule. */
  public static boolean isActionWord(String word) {
    return Arrays.stream(Action.Kind.values())
        .anyMatch(kind -> kind.word().split(" ", 2)[0].equals(word));
  }
}
