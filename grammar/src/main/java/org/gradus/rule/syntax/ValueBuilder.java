package org.gradus.rule.syntax;

import java.util.List;
import org.antlr.v4.runtime.Token;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** Turns the parser's tree of a condition or value into ours. */
final class ValueBuilder extends GradusBaseVisitor<Expression> {

  private final TreeBuilder builder;

  ValueBuilder(TreeBuilder builder) {
    this.builder = builder;
  }

  @Override
  public Expression visitChoice(GradusParser.ChoiceContext tree) {
    return new Expression.Choice(
        builder.span(tree), visit(tree.expr(0)), visit(tree.expr(1)), visit(tree.expr(2)));
  }

  @Override
  public Expression visitPlain(GradusParser.PlainContext tree) {
    return visit(tree.either());
  }

  @Override
  public Expression visitEither(GradusParser.EitherContext tree) {
    Expression joined = visit(tree.both(0));
    for (int i = 1; i < tree.both().size(); i++) {
      Span span = builder.span(tree.both(0)).to(builder.span(tree.both(i)));
      joined = new Expression.Or(span, joined, visit(tree.both(i)));
    }
    return joined;
  }

  @Override
  public Expression visitBoth(GradusParser.BothContext tree) {
    Expression joined = visit(tree.denial(0));
    for (int i = 1; i < tree.denial().size(); i++) {
      Span span = builder.span(tree.denial(0)).to(builder.span(tree.denial(i)));
      joined = new Expression.And(span, joined, visit(tree.denial(i)));
    }
    return joined;
  }

  @Override
  public Expression visitNot(GradusParser.NotContext tree) {
    return new Expression.Not(builder.span(tree), visit(tree.denial()));
  }

  @Override
  public Expression visitAsserted(GradusParser.AssertedContext tree) {
    return visit(tree.test());
  }

  @Override
  public Expression visitTest(GradusParser.TestContext tree) {
    Expression left = visit(tree.sum());
    if (tree.tail() instanceof GradusParser.ComparisonContext comparison) {
      return new Expression.Comparison(
          builder.span(tree), relation(comparison.op), left, visit(comparison.sum()));
    }
    if (tree.tail() instanceof GradusParser.BetweenContext between) {
      return new Expression.Between(
          builder.span(tree), left, visit(between.sum(0)), visit(between.sum(1)));
    }
    if (tree.tail() instanceof GradusParser.IsContext is) {
      return new Expression.Is(builder.span(tree), left, is.NOT() != null, builder.name(is.name()));
    }
    return left;
  }

  private static Relation relation(Token operator) {
    return switch (operator.getType()) {
      case GradusLexer.LT -> Relation.LESS;
      case GradusLexer.LE -> Relation.AT_MOST;
      case GradusLexer.GT -> Relation.MORE;
      case GradusLexer.GE -> Relation.AT_LEAST;
      case GradusLexer.EQ -> Relation.EQUAL;
      default -> Relation.UNEQUAL;
    };
  }

  @Override
  public Expression visitAdditive(GradusParser.AdditiveContext tree) {
    Operator operator = tree.op.getType() == GradusLexer.PLUS ? Operator.PLUS : Operator.MINUS;
    return new Expression.Arithmetic(
        builder.span(tree), operator, visit(tree.sum()), visit(tree.product()));
  }

  @Override
  public Expression visitOfProducts(GradusParser.OfProductsContext tree) {
    return visit(tree.product());
  }

  @Override
  public Expression visitMultiplicative(GradusParser.MultiplicativeContext tree) {
    Operator operator = tree.op.getType() == GradusLexer.STAR ? Operator.TIMES : Operator.OVER;
    return new Expression.Arithmetic(
        builder.span(tree), operator, visit(tree.product()), visit(tree.signed()));
  }

  @Override
  public Expression visitOfSigned(GradusParser.OfSignedContext tree) {
    return visit(tree.signed());
  }

  @Override
  public Expression visitNegated(GradusParser.NegatedContext tree) {
    return new Expression.Negation(builder.span(tree), visit(tree.signed()));
  }

  @Override
  public Expression visitUnsigned(GradusParser.UnsignedContext tree) {
    return visit(tree.share());
  }

  @Override
  public Expression visitShare(GradusParser.ShareContext tree) {
    Expression part = visit(tree.power());
    return tree.signed() == null
        ? part
        : new Expression.Share(builder.span(tree), part, visit(tree.signed()));
  }

  @Override
  public Expression visitPower(GradusParser.PowerContext tree) {
    Expression base = visit(tree.postfix());
    return tree.exponent() == null
        ? base
        : new Expression.Power(builder.span(tree), base, visit(tree.exponent()));
  }

  @Override
  public Expression visitExponent(GradusParser.ExponentContext tree) {
    return tree.power() != null
        ? visit(tree.power())
        : new Expression.Negation(builder.span(tree), visit(tree.exponent()));
  }

  @Override
  public Expression visitConversion(GradusParser.ConversionContext tree) {
    Expression operand = visit(tree.postfix());
    Expression.UnitName unit = builder.unitName(tree.unit());
    return tree.op.getType() == GradusLexer.IN
        ? new Expression.InUnit(builder.span(tree), operand, unit)
        : new Expression.AsUnit(builder.span(tree), operand, unit);
  }

  @Override
  public Expression visitWhole(GradusParser.WholeContext tree) {
    return visit(tree.primary());
  }

  @Override
  public Expression visitLiteral(GradusParser.LiteralContext tree) {
    Quantity quantity = Quantity.of(builder.number(tree.number()), builder.unit(tree.unit()));
    return new Expression.Literal(builder.span(tree), quantity);
  }

  @Override
  public Expression visitClock(GradusParser.ClockContext tree) {
    return new Expression.Literal(builder.span(tree), builder.clock(tree.CLOCK().getSymbol()));
  }

  @Override
  public Expression visitCall(GradusParser.CallContext tree) {
    List<Expression> arguments = tree.expr().stream().map(this::visit).toList();
    return new Expression.Call(builder.span(tree), builder.name(tree.name()), arguments);
  }

  @Override
  public Expression visitReference(GradusParser.ReferenceContext tree) {
    String first = tree.name(0).getText();
    String name = tree.name().size() == 1 ? first : first + "." + tree.name(1).getText();
    return new Expression.Reference(builder.span(tree), name);
  }

  // The brackets belong to the text, not to the tree; only the place of the inside is kept.
  @Override
  public Expression visitGroup(GradusParser.GroupContext tree) {
    return visit(tree.expr());
  }
}
