package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.check.Table;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** A node that gives a number in the base unit of its kind, or NaN when it is not known. */
sealed interface NumberNode extends Planned
    permits Joined,
        NumberNode.Apart,
        NumberNode.Choice,
        NumberNode.Constant,
        NumberNode.Definition,
        NumberNode.Difference,
        NumberNode.FromBase,
        NumberNode.Function,
        NumberNode.Lookup,
        NumberNode.Negative,
        NumberNode.OnLine,
        NumberNode.Percent,
        NumberNode.Power,
        NumberNode.Rounded,
        NumberNode.Slot,
        NumberNode.Solved,
        NumberNode.ToBase {

  double value(Frame frame);

  /**
   * The number of a node. Most nodes stand on slots, constants and definitions already evaluated:
   * to take these without a call through the interface makes most of the speed of a plan.
   */
  static double number(NumberNode node, Frame frame) {
    if (node instanceof Slot slot) {
      return slot.value(frame);
    } else if (node instanceof Constant constant) {
      return constant.value(frame);
    } else if (node instanceof Definition definition && frame.hasTerm(definition.place())) {
      return frame.term(definition.place());
    } else if (node instanceof Apart apart) {
      return apart.value(frame);
    }
    return node.value(frame);
  }

  @Override
  default boolean isUnknown(Frame frame) {
    return Double.isNaN(value(frame));
  }

  // An overflow or a division by zero is unknown, never an infinity that comparisons believe.
  static double finite(double number) {
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

  /** The frequent {@code abs(change(s, D))}. */
  record Apart(Expression syntax, int now, int earlier) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(Math.abs(frame.value(now) - frame.value(earlier)));
    }

    @Override
    public List<Integer> slots() {
      return List.of(now, earlier);
    }
  }

  /** So many per cent of something: n * x / 100, which is exact where 0.01 * n * x is not. */
  record Percent(Expression syntax, double percent, NumberNode whole) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(percent * NumberNode.number(whole, frame) / 100);
    }

    @Override
    public List<Planned> parts() {
      return List.of(whole);
    }
  }

  record Power(Expression syntax, NumberNode base, NumberNode exponent) implements NumberNode {
    @Override
    public double value(Frame frame) {
      double x = NumberNode.number(base, frame);
      // StrictMath takes anything to the power of zero as one, also what is not known.
      return Double.isNaN(x) ? x : finite(StrictMath.pow(x, NumberNode.number(exponent, frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(base, exponent);
    }
  }

  record Negative(Expression syntax, NumberNode operand) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return -NumberNode.number(operand, frame);
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record FromBase(Expression syntax, NumberNode operand, Unit unit) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(unit.fromBase(NumberNode.number(operand, frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record ToBase(Expression syntax, NumberNode operand, Unit unit) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(unit.toBase(NumberNode.number(operand, frame)));
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
      return finite(function.of(NumberNode.number(operand, frame)));
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record Rounded(Expression syntax, NumberNode operand, NumberNode step) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(
          Quantity.roundTo(NumberNode.number(operand, frame), NumberNode.number(step, frame)));
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
      byte answer = TruthNode.answer(condition, frame);
      if (answer != Truth.OPEN) {
        return NumberNode.number(answer == Truth.YES ? whenTrue : whenFalse, frame);
      }
      double first = NumberNode.number(whenTrue, frame);
      return Quantity.same(first, NumberNode.number(whenFalse, frame)) ? first : Double.NaN;
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
      double away = NumberNode.number(at, frame) - frame.value(meanX);
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
      return table.at(NumberNode.number(operand, frame));
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

  /** A definition, evaluated when it is asked for first. */
  record Definition(Expression syntax, Term term, int place, Alternatives alternatives)
      implements NumberNode {
    @Override
    public double value(Frame frame) {
      return frame.hasTerm(place)
          ? frame.term(place)
          : frame.keepTerm(place, alternatives.number(frame));
    }
  }
}
