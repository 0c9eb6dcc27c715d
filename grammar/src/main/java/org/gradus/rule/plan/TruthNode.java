package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** A node that gives yes, no or open as one byte. */
sealed interface TruthNode extends Planned {

  byte truth(Frame frame);

  @Override
  default boolean isUnknown(Frame frame) {
    return truth(frame) == Truth.OPEN;
  }

  private static byte fromNumber(double number) {
    return Double.isNaN(number) ? Truth.OPEN : Truth.planned(number != 0);
  }

  record Slot(Expression syntax, int index) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return fromNumber(frame.value(index));
    }

    @Override
    public List<Integer> slots() {
      return List.of(index);
    }
  }

  record Fixed(Expression syntax, boolean answer) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return Truth.planned(answer);
    }
  }

  record And(Expression syntax, TruthNode left, TruthNode right) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      byte first = left.truth(frame);
      return first == Truth.NO ? first : (byte) Math.min(first, right.truth(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Or(Expression syntax, TruthNode left, TruthNode right) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      byte first = left.truth(frame);
      return first == Truth.YES ? first : (byte) Math.max(first, right.truth(frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Not(Expression syntax, TruthNode operand) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return (byte) -operand.truth(frame);
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  record Compare(Expression syntax, Relation relation, NumberNode left, NumberNode right)
      implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      double a = left.value(frame);
      double b = right.value(frame);
      return Double.isNaN(a) || Double.isNaN(b) ? Truth.OPEN : Truth.planned(holds(relation, a, b));
    }

    static boolean holds(Relation relation, double a, double b) {
      boolean same = Quantity.same(a, b);
      return switch (relation) {
        case LESS -> a < b && !same;
        case AT_MOST -> a < b || same;
        case MORE -> a > b && !same;
        case AT_LEAST -> a > b || same;
        case EQUAL -> same;
        case UNEQUAL -> !same;
      };
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Between(Expression syntax, NumberNode number, NumberNode low, NumberNode high)
      implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      double x = number.value(frame);
      byte above = side(Relation.AT_LEAST, x, low.value(frame));
      byte below = side(Relation.AT_MOST, x, high.value(frame));
      return (byte) Math.min(above, below);
    }

    private static byte side(Relation relation, double x, double end) {
      boolean open = Double.isNaN(x) || Double.isNaN(end);
      return open ? Truth.OPEN : Truth.planned(Compare.holds(relation, x, end));
    }

    @Override
    public List<Planned> parts() {
      return List.of(number, low, high);
    }
  }

  record IsOption(Expression syntax, int slot, int option, boolean negated) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      double chosen = frame.value(slot);
      return Double.isNaN(chosen) ? Truth.OPEN : Truth.planned((chosen == option) != negated);
    }

    @Override
    public List<Integer> slots() {
      return List.of(slot);
    }
  }

  /** Asks whether something is known; itself never open. */
  record Known(Expression syntax, Planned subject) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return Truth.planned(!subject.isUnknown(frame));
    }
  }

  /** Whether a choice was made; the word itself has no node. */
  record KnownSlot(Expression syntax, int slot) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return Truth.planned(frame.isKnown(slot));
    }
  }

  record Choice(Expression syntax, TruthNode condition, TruthNode whenTrue, TruthNode whenFalse)
      implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      byte answer = condition.truth(frame);
      if (answer != Truth.OPEN) {
        return (answer == Truth.YES ? whenTrue : whenFalse).truth(frame);
      }
      byte first = whenTrue.truth(frame);
      return first == whenFalse.truth(frame) ? first : Truth.OPEN;
    }

    @Override
    public List<Planned> parts() {
      return List.of(condition, whenTrue, whenFalse);
    }
  }

  record Definition(Expression syntax, Term term, Alternatives alternatives) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return fromNumber(
          frame.hasTerm(term.place())
              ? frame.term(term.place())
              : frame.keepTerm(term.place(), alternatives.value(frame)));
    }
  }
}
