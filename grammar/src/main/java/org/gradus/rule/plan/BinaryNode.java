package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;

/** A node that makes one number of two. */
sealed interface BinaryNode extends NumberNode {

  NumberNode left();

  NumberNode right();

  @Override
  default List<Node> parts() {
    return List.of(left(), right());
  }

  /** {@code left + right}. */
  record Sum(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) + NumberNode.number(right, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).plus(region.range(right));
    }
  }

  /** {@code left - right}. */
  record Subtraction(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) - NumberNode.number(right, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).minus(region.range(right));
    }
  }

  /** {@code left * right}. */
  record Product(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) * NumberNode.number(right, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).times(region.range(right));
    }
  }

  /** {@code left / right}. */
  record Quotient(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) / NumberNode.number(right, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).over(region.range(right));
    }
  }

  /** {@code left ^ right}. */
  record Power(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      double x = NumberNode.number(left, frame);
      // StrictMath takes anything to the power of zero as one, also what is not known.
      return Double.isNaN(x)
          ? x
          : NumberNode.finite(StrictMath.pow(x, NumberNode.number(right, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).power(region.range(right));
    }
  }

  /** {@code lesser(left, right)}. */
  record Lesser(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return Math.min(NumberNode.number(left, frame), NumberNode.number(right, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).lesser(region.range(right));
    }
  }

  /** {@code greater(left, right)}. */
  record Greater(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return Math.max(NumberNode.number(left, frame), NumberNode.number(right, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).greater(region.range(right));
    }
  }

  /** {@code round(left, right)}. */
  record Rounded(Expression syntax, NumberNode left, NumberNode right) implements BinaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(
          Quantity.roundTo(NumberNode.number(left, frame), NumberNode.number(right, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(left).rounded(region.range(right));
    }
  }
}
