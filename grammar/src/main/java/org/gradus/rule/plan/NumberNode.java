package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.check.Table;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** A node that gives a number in the base unit of its kind, or NaN when it is not known. */
sealed interface NumberNode extends Planned {

  double value(Frame frame);

  @Override
  default boolean isUnknown(Frame frame) {
    return Double.isNaN(value(frame));
  }

  // An overflow or a division by zero is unknown, never an infinity that comparisons believe.
  private static double finite(double number) {
    return Double.isFinite(number) ? number : Double.NaN;
  }

  record Constant(Expression syntax, double base) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return base;
    }
  }

  record Slot(Expression syntax, int index) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return frame.value(index);
    }

    @Override
    public List<Integer> slots() {
      return List.of(index);
    }
  }

  /** The frequent {@code change(s, D)}: two slots and no node between. */
  record Difference(Expression syntax, int now, int earlier) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(frame.value(now) - frame.value(earlier));
    }

    @Override
    public List<Integer> slots() {
      return List.of(now, earlier);
    }
  }

  record Sum(Expression syntax, NumberNode left, NumberNode right) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(left.value(frame) + right.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Less(Expression syntax, NumberNode left, NumberNode right) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(left.value(frame) - right.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Product(Expression syntax, NumberNode left, NumberNode right) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(left.value(frame) * right.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Quotient(Expression syntax, NumberNode left, NumberNode right) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(left.value(frame) / right.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  /** So many per cent of something: n * x / 100, which is exact where 0.01 * n * x is not. */
  record Percent(Expression syntax, double percent, NumberNode whole) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(percent * whole.value(frame) / 100);
    }

    @Override
    public List<Planned> parts() {
      return List.of(whole);
    }
  }

  record Power(Expression syntax, NumberNode base, NumberNode exponent) implements NumberNode {
    @Override
    public double value(Frame frame) {
      double x = base.value(frame);
      // StrictMath takes anything to the power of zero as one, also what is not known.
      return Double.isNaN(x) ? x : finite(StrictMath.pow(x, exponent.value(frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(base, exponent);
    }
  }

  record Negative(Expression syntax, NumberNode operand) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return -operand.value(frame);
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record FromBase(Expression syntax, NumberNode operand, Unit unit) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(unit.fromBase(operand.value(frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record ToBase(Expression syntax, NumberNode operand, Unit unit) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(unit.toBase(operand.value(frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  /** A plain function of one number. */
  record Function(Expression syntax, Plain function, NumberNode operand) implements NumberNode {

    /** What is done with the number. */
    interface Plain {
      double of(double x);
    }

    @Override
    public double value(Frame frame) {
      return finite(function.of(operand.value(frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record Lesser(Expression syntax, NumberNode left, NumberNode right) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return Math.min(left.value(frame), right.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Greater(Expression syntax, NumberNode left, NumberNode right) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return Math.max(left.value(frame), right.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Rounded(Expression syntax, NumberNode operand, NumberNode step) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(Quantity.roundTo(operand.value(frame), step.value(frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand, step);
    }
  }

  record Choice(Expression syntax, TruthNode condition, NumberNode whenTrue, NumberNode whenFalse)
      implements NumberNode {
    @Override
    public double value(Frame frame) {
      byte answer = condition.truth(frame);
      if (answer != Truth.OPEN) {
        return (answer == Truth.YES ? whenTrue : whenFalse).value(frame);
      }
      double first = whenTrue.value(frame);
      return Quantity.same(first, whenFalse.value(frame)) ? first : Double.NaN;
    }

    @Override
    public List<Planned> parts() {
      return List.of(condition, whenTrue, whenFalse);
    }
  }

  /** The y of a line at an x: from its middle, so that little precision is lost. */
  record OnLine(Expression syntax, int meanX, int meanY, int slope, NumberNode at)
      implements NumberNode {
    @Override
    public double value(Frame frame) {
      double away = at.value(frame) - frame.value(meanX);
      return finite(frame.value(meanY) + frame.value(slope) * away);
    }

    @Override
    public List<Planned> parts() {
      return List.of(at);
    }

    @Override
    public List<Integer> slots() {
      return List.of(meanX, meanY, slope);
    }
  }

  record Lookup(Expression syntax, Table table, NumberNode operand) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return table.at(operand.value(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  /** Where a straight line, known by its values at 0 and 1, reaches an uptake. */
  record Solved(Expression syntax, NumberNode atZero, NumberNode atOne, NumberNode wanted)
      implements NumberNode {
    @Override
    public double value(Frame frame) {
      double start = atZero.value(frame);
      return finite((wanted.value(frame) - start) / (atOne.value(frame) - start));
    }

    @Override
    public List<Planned> parts() {
      return List.of(atZero, atOne, wanted);
    }
  }

  record Definition(Expression syntax, Term term, Alternatives alternatives) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return frame.hasTerm(term.place())
          ? frame.term(term.place())
          : frame.keepTerm(term.place(), alternatives.value(frame));
    }
  }
}
