package org.gradus.rule.random;

import java.util.List;
import java.util.Random;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** The same tree with every literal given in another unit of its kind. */
record Restated(Random random) {

  Expression of(Expression tree) {
    if (tree instanceof Expression.Literal literal) {
      List<Unit> units = Grower.units(literal.quantity().kind());
      Unit unit = units.get(random.nextInt(units.size()));
      return new Expression.Literal(literal.span(), Quantity.of(literal.quantity().in(unit), unit));
    } else if (tree instanceof Expression.Choice e) {
      return new Expression.Choice(
          e.span(), of(e.condition()), of(e.whenTrue()), of(e.whenFalse()));
    } else if (tree instanceof Expression.Or e) {
      return new Expression.Or(e.span(), of(e.left()), of(e.right()));
    } else if (tree instanceof Expression.And e) {
      return new Expression.And(e.span(), of(e.left()), of(e.right()));
    } else if (tree instanceof Expression.Not e) {
      return new Expression.Not(e.span(), of(e.operand()));
    } else if (tree instanceof Expression.Comparison e) {
      return new Expression.Comparison(e.span(), e.relation(), of(e.left()), of(e.right()));
    } else if (tree instanceof Expression.Between e) {
      return new Expression.Between(e.span(), of(e.value()), of(e.low()), of(e.high()));
    } else if (tree instanceof Expression.Arithmetic e) {
      return new Expression.Arithmetic(e.span(), e.operator(), of(e.left()), of(e.right()));
    } else if (tree instanceof Expression.Negation e) {
      return new Expression.Negation(e.span(), of(e.operand()));
    } else if (tree instanceof Expression.Share e) {
      return new Expression.Share(e.span(), of(e.part()), of(e.whole()));
    } else if (tree instanceof Expression.Power e) {
      return new Expression.Power(e.span(), of(e.base()), of(e.exponent()));
    } else if (tree instanceof Expression.InUnit e) {
      return new Expression.InUnit(e.span(), of(e.operand()), e.unit());
    } else if (tree instanceof Expression.AsUnit e) {
      return new Expression.AsUnit(e.span(), of(e.operand()), e.unit());
    } else if (tree instanceof Expression.Call e) {
      return new Expression.Call(
          e.span(), e.function(), e.arguments().stream().map(this::of).toList());
    }
    return tree;
  }
}
