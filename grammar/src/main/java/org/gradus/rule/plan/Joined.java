package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.syntax.Expression;

/** A node that makes one number of two. */
sealed interface Joined extends NumberNode {

  NumberNode left();

  NumberNode right();

  @Override
  default List<Planned> parts() {
    return List.of(left(), right());
  }

  record Sum(Expression syntax, NumberNode left, NumberNode right) implements Joined {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) + NumberNode.number(right, frame));
    }
  }

  record Less(Expression syntax, NumberNode left, NumberNode right) implements Joined {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) - NumberNode.number(right, frame));
    }
  }

  record Product(Expression syntax, NumberNode left, NumberNode right) implements Joined {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) * NumberNode.number(right, frame));
    }
  }

  record Quotient(Expression syntax, NumberNode left, NumberNode right) implements Joined {
    @Override
    public double value(Frame frame) {
      return NumberNode.finite(NumberNode.number(left, frame) / NumberNode.number(right, frame));
    }
  }

  record Lesser(Expression syntax, NumberNode left, NumberNode right) implements Joined {
    @Override
    public double value(Frame frame) {
      return Math.min(NumberNode.number(left, frame), NumberNode.number(right, frame));
    }
  }

  record Greater(Expression syntax, NumberNode left, NumberNode right) implements Joined {
    @Override
    public double value(Frame frame) {
      return Math.max(NumberNode.number(left, frame), NumberNode.number(right, frame));
    }
  }
}
