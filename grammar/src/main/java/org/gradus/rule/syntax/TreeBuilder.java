package org.gradus.rule.syntax;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.rule.syntax.Expression.Name;
import org.gradus.rule.syntax.Expression.UnitName;
import org.gradus.rule.syntax.GradusParser.ChoiceTextContext;
import org.gradus.rule.syntax.GradusParser.ExprContext;
import org.gradus.rule.syntax.GradusParser.NameContext;
import org.gradus.rule.syntax.GradusParser.NumberContext;
import org.gradus.rule.syntax.GradusParser.QuantityContext;
import org.gradus.rule.syntax.GradusParser.RangeTextContext;
import org.gradus.rule.syntax.GradusParser.SelectionContext;
import org.gradus.rule.syntax.GradusParser.SentenceContext;
import org.gradus.rule.syntax.GradusParser.UnitContext;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Unit;
import org.jspecify.annotations.Nullable;

/**
 * Turns the parser's tree of a whole text into ours; {@link ValueBuilder} builds values, {@link
 * ActionBuilder} actions.
 */
final class TreeBuilder {

  private final Tokens tokens;
  private final Problems problems;
  private final ValueBuilder values = new ValueBuilder(this);
  private final ActionBuilder actions = new ActionBuilder(this);

  TreeBuilder(Tokens tokens, Problems problems) {
    this.tokens = tokens;
    this.problems = problems;
  }

  Sentence sentence(SentenceContext tree) {
    Optional<Expression> when = Optional.ofNullable(tree.expr()).map(this::expression);
    return new Sentence(span(tree), span(tree.action()), actions.visit(tree.action()), when);
  }

  Expression expression(ExprContext tree) {
    return values.visit(tree);
  }

  ChoiceLine choiceLine(ChoiceTextContext tree) {
    Optional<Expression> when = Optional.ofNullable(tree.expr()).map(this::expression);
    return new ChoiceLine(span(tree.name()), name(tree.name()), when);
  }

  QuantityRange range(RangeTextContext tree) {
    return new QuantityRange(quantity(tree.quantity(0)), quantity(tree.quantity(1)));
  }

  Selection selection(SelectionContext tree) {
    if (tree instanceof GradusParser.FromEndContext from) {
      int count = stages(from.WHOLE());
      return new Selection.FromEnd(span(tree), from.LAST() != null, count, word(from.WORD()));
    }
    if (tree instanceof GradusParser.AllStagesContext all) {
      int atLeast = stages(all.WHOLE());
      return new Selection.All(span(tree), word(all.WORD()), atLeast);
    }
    if (tree instanceof GradusParser.OneStageContext one) {
      return new Selection.One(span(tree), name(one.name()));
    }
    return new Selection.Moment(span(tree), new Name(span(tree), tree.getText()));
  }

  private int stages(@Nullable TerminalNode number) {
    if (number == null) {
      return 1;
    }
    int count = whole(number.getSymbol());
    if (count == 0) {
      Span where = tokens.span(number.getSymbol());
      problems.add(where, Code.G305, "0", "a number of stages", "take at least one");
    }
    return count;
  }

  private Optional<Name> word(@Nullable TerminalNode node) {
    return Optional.ofNullable(node)
        .map(word -> new Name(tokens.span(word.getSymbol()), word.getText()));
  }

  Quantity quantity(QuantityContext tree) {
    if (tree instanceof GradusParser.QuantityClockContext clock) {
      Quantity time = clock(clock.CLOCK().getSymbol());
      return clock.MINUS() == null ? time : Quantity.of(-time.amount(), time.unit());
    }
    GradusParser.QuantityLiteralContext literal = (GradusParser.QuantityLiteralContext) tree;
    double amount = number(literal.number());
    return Quantity.of(literal.MINUS() == null ? amount : -amount, unit(literal.unit()));
  }

  /** {@code 2:30} or {@code 1:02:30}. */
  Quantity clock(Token token) {
    double seconds = 0;
    for (String part : token.getText().split(":", -1)) {
      seconds = seconds * 60 + parsed(part, token);
    }
    return Quantity.of(seconds, Unit.SECOND);
  }

  double number(NumberContext tree) {
    return parsed(tree.getText(), tree.getStart());
  }

  private double parsed(String digits, Token token) {
    double number = Double.parseDouble(digits);
    // Far beyond anything measured, yet far below where squares and products would overflow.
    if (number > 1e15) {
      problems.add(tokens.span(token), Code.G106, shortened(digits));
      return 1;
    }
    return number;
  }

  int whole(Token token) {
    double number = parsed(token.getText(), token);
    if (number > Integer.MAX_VALUE) {
      problems.add(tokens.span(token), Code.G106, shortened(token.getText()));
      return 1;
    }
    return (int) number;
  }

  private static String shortened(String digits) {
    return digits.length() <= 20 ? digits : digits.substring(0, 20) + "...";
  }

  Unit unit(@Nullable UnitContext tree) {
    return tree == null ? Unit.ONE : unitName(tree).unit();
  }

  UnitName unitName(UnitContext tree) {
    String text = tree.getText();
    Unit unit = Unit.named(text).orElse(null);
    if (unit == null) {
      List<String> known =
          Arrays.stream(Unit.values()).flatMap(Unit::spellings).filter(s -> !s.isEmpty()).toList();
      problems.add(
          span(tree),
          Code.G202,
          text,
          EverydayUnits.meant(text)
              .map(meant -> "write " + meant)
              .orElseGet(
                  () -> Suggestion.help(text, known, "the units are " + String.join(", ", known))));
      unit = Unit.ONE;
    }
    return new UnitName(span(tree), unit);
  }

  Name name(NameContext tree) {
    return new Name(span(tree), tree.getText());
  }

  Span span(ParserRuleContext tree) {
    return tokens.span(tree.getStart(), tree.getStop());
  }

  Span span(Token token) {
    return tokens.span(token);
  }
}
