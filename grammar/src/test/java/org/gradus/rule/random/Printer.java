package org.gradus.rule.random;

import java.util.stream.Collectors;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Writes trees as texts, with no bracket that the grammar does not need, or with all of them. */
final class Printer {

  // How tightly the forms of the grammar bind, from the loosest.
  private static final int EXPR = 0;
  private static final int EITHER = 1;
  private static final int BOTH = 2;
  private static final int DENIAL = 3;
  private static final int TEST = 4;
  private static final int SUM = 5;
  private static final int PRODUCT = 6;
  private static final int SIGNED = 7;
  private static final int SHARE = 8;
  private static final int POWER = 9;
  private static final int POSTFIX = 10;
  private static final int PRIMARY = 11;

  private final boolean allBrackets;

  private Printer(boolean allBrackets) {
    this.allBrackets = allBrackets;
  }

  /** The shortest text of a tree. */
  static String text(Expression tree) {
    return new Printer(false).at(EXPR, tree);
  }

  /** A text in which brackets show the whole structure: equal trees have equal ones. */
  static String structure(Expression tree) {
    return new Printer(true).at(EXPR, tree);
  }

  private String at(int level, Expression tree) {
    boolean bare = allBrackets ? level(tree) == PRIMARY : level(tree) >= level;
    return bare ? plain(tree) : "(" + plain(tree) + ")";
  }

  private static int level(Expression tree) {
    if (tree instanceof Expression.Choice) {
      return EXPR;
    } else if (tree instanceof Expression.Or) {
      return EITHER;
    } else if (tree instanceof Expression.And) {
      return BOTH;
    } else if (tree instanceof Expression.Not) {
      return DENIAL;
    } else if (tree instanceof Expression.Comparison
        || tree instanceof Expression.Between
        || tree instanceof Expression.Is) {
      return TEST;
    } else if (tree instanceof Expression.Arithmetic arithmetic) {
      return arithmetic.operator().isAdditive() ? SUM : PRODUCT;
    } else if (tree instanceof Expression.Negation) {
      return SIGNED;
    } else if (tree instanceof Expression.Share) {
      return SHARE;
    } else if (tree instanceof Expression.Power) {
      return POWER;
    } else if (tree instanceof Expression.InUnit || tree instanceof Expression.AsUnit) {
      return POSTFIX;
    }
    return PRIMARY;
  }

  private String plain(Expression tree) {
    if (tree instanceof Expression.Choice choice) {
      return "if %s then %s else %s"
          .formatted(
              at(EXPR, choice.condition()),
              at(EXPR, choice.whenTrue()),
              at(EXPR, choice.whenFalse()));
    } else if (tree instanceof Expression.Or or) {
      return at(EITHER, or.left()) + " or " + at(BOTH, or.right());
    } else if (tree instanceof Expression.And and) {
      return at(BOTH, and.left()) + " and " + at(DENIAL, and.right());
    } else if (tree instanceof Expression.Not not) {
      return "not " + at(DENIAL, not.operand());
    } else if (tree instanceof Expression.Comparison test) {
      return at(SUM, test.left()) + " " + test.relation().symbol() + " " + at(SUM, test.right());
    } else if (tree instanceof Expression.Between between) {
      return "%s between %s and %s"
          .formatted(at(SUM, between.value()), at(SUM, between.low()), at(SUM, between.high()));
    } else if (tree instanceof Expression.Is is) {
      return at(SUM, is.subject()) + (is.negated() ? " is not " : " is ") + is.option().text();
    } else if (tree instanceof Expression.Arithmetic arithmetic) {
      return arithmetic(arithmetic);
    } else if (tree instanceof Expression.Negation negation) {
      return "-" + at(SIGNED, negation.operand());
    } else if (tree instanceof Expression.Share share) {
      return at(POWER, share.part()) + " of " + at(SIGNED, share.whole());
    } else if (tree instanceof Expression.Power power) {
      return at(POSTFIX, power.base()) + " ^ " + exponent(power.exponent());
    } else if (tree instanceof Expression.InUnit in) {
      return at(POSTFIX, in.operand()) + " in " + in.unit().unit().symbol();
    } else if (tree instanceof Expression.AsUnit as) {
      return at(POSTFIX, as.operand()) + " as " + as.unit().unit().symbol();
    } else if (tree instanceof Expression.Call call) {
      return call.arguments().stream()
          .map(argument -> at(EXPR, argument))
          .collect(Collectors.joining(", ", call.function().text() + "(", ")"));
    } else if (tree instanceof Expression.Reference reference) {
      return reference.name();
    }
    return literal(((Expression.Literal) tree).quantity());
  }

  private String arithmetic(Expression.Arithmetic tree) {
    int left = tree.operator().isAdditive() ? SUM : PRODUCT;
    return at(left, tree.left())
        + " "
        + tree.operator().symbol()
        + " "
        + at(left == SUM ? PRODUCT : SIGNED, tree.right());
  }

  // In an exponent a sign binds as tightly as the power itself.
  private String exponent(Expression tree) {
    return tree instanceof Expression.Negation negation && !allBrackets
        ? "-" + exponent(negation.operand())
        : at(POWER, tree);
  }

  private static String literal(Quantity quantity) {
    boolean clock =
        quantity.unit() == Unit.SECOND
            && quantity.amount() >= 60
            && quantity.amount() == Math.rint(quantity.amount());
    if (!clock) {
      return quantity.toString();
    }
    long seconds = (long) quantity.amount();
    return "%d:%02d".formatted(seconds / 60, seconds % 60);
  }
}
