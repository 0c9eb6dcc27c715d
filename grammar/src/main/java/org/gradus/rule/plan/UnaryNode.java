package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Unit;

/** A node that makes one number of another. */
sealed interface UnaryNode extends NumberNode {

  NumberNode operand();

  @Override
  default List<Node> parts() {
    return List.of(operand());
  }

  /** {@code -operand}. */
  record Negative(Expression syntax, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return -NumberNode.number(operand, frame);
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).negative();
    }
  }

  /** {@code percent % of operand}: n * x / 100, which is exact where 0.01 * n * x is not. */
  record Percent(Expression syntax, double percent, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(percent * NumberNode.number(operand, frame) / 100);
    }

    // In the same order, so that not even a rounding leads out of the range.
    @Override
    public NumberRange range(Region region) {
      return NumberRange.point(percent).times(region.range(operand)).over(NumberRange.point(100));
    }
  }

  /** {@code operand in unit}: a quantity made a plain number. */
  record FromBase(Expression syntax, NumberNode operand, Unit unit) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(unit.fromBase(NumberNode.number(operand, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).rising(unit::fromBase);
    }
  }

  /** {@code operand as unit}: a plain number made a quantity. */
  record ToBase(Expression syntax, NumberNode operand, Unit unit) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(unit.toBase(NumberNode.number(operand, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).rising(unit::toBase);
    }
  }

  /** {@code abs(operand)}. */
  record Absolute(Expression syntax, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return Math.abs(NumberNode.number(operand, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).absolute();
    }
  }

  /** {@code ln(operand)}. */
  record Logarithm(Expression syntax, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(StrictMath.log(NumberNode.number(operand, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).logarithm();
    }
  }

  /** {@code exp(operand)}. */
  record Exponential(Expression syntax, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(StrictMath.exp(NumberNode.number(operand, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).exponential();
    }
  }

  /** {@code sqrt(operand)}. */
  record Root(Expression syntax, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(StrictMath.sqrt(NumberNode.number(operand, frame)));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).root();
    }
  }

  /** {@code lookup(table, operand)}. */
  record Lookup(Expression syntax, Table table, NumberNode operand) implements UnaryNode {
    @Override
    public double value(Frame frame) {
      return table.at(NumberNode.number(operand, frame));
    }

    @Override
    public NumberRange range(Region region) {
      return region.range(operand).through(table);
    }

    @Override
    public Gap.Cause causeOfNoValue() {
      return Gap.Cause.OUT_OF_RANGE;
    }
  }
}
