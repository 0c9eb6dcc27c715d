package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** A node that gives yes, no or open as one byte. */
sealed interface TruthNode extends Planned {

  byte truth(Frame frame);

  /** The truth of a node; see {@link NumberNode#number}. */
  static byte answer(TruthNode node, Frame frame) {
    if (node instanceof Slot slot) {
      return slot.truth(frame);
    } else if (node instanceof Compare compare) {
      return compare.truth(frame);
    } else if (node instanceof Definition definition && frame.hasTerm(definition.place())) {
      return (byte) frame.term(definition.place());
    } else if (node instanceof KnownSlot known) {
      return known.truth(frame);
    }
    return node.truth(frame);
  }

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
      byte first = TruthNode.answer(left, frame);
      return first == Truth.NO ? first : (byte) Math.min(first, TruthNode.answer(right, frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Or(Expression syntax, TruthNode left, TruthNode right) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      byte first = TruthNode.answer(left, frame);
      return first == Truth.YES ? first : (byte) Math.max(first, TruthNode.answer(right, frame));
    }

    @Override
    public List<Planned> parts() {
      return List.of(left, right);
    }
  }

  record Not(Expression syntax, TruthNode operand) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return (byte) -TruthNode.answer(operand, frame);
    }

    @Override
    public List<Planned> parts() {
      return List.of(operand);
    }
  }

  /** A comparison, kept as its answers for a left side that is below, equal and above. */
  record Compare(
      Expression syntax, NumberNode left, NumberNode right, byte below, byte same, byte above)
      implements TruthNode {

    static Compare of(Expression syntax, Relation relation, NumberNode left, NumberNode right) {
      return new Compare(
          syntax,
          left,
          right,
          Truth.planned(holds(relation, -1)),
          Truth.planned(holds(relation, 0)),
          Truth.planned(holds(relation, 1)));
    }

    @Override
    public byte truth(Frame frame) {
      double a = NumberNode.number(left, frame);
      double b = NumberNode.number(right, frame);
      if (Quantity.isBelow(a, b)) {
        return below;
      } else if (Quantity.isBelow(b, a)) {
        return above;
      }
      return Double.isNaN(a) || Double.isNaN(b) ? Truth.OPEN : same;
    }

    static boolean holds(Relation relation, double a, double b) {
      return holds(relation, Quantity.isBelow(a, b) ? -1 : Quantity.isBelow(b, a) ? 1 : 0);
    }

    private static boolean holds(Relation relation, int order) {
      return switch (relation) {
        case LESS -> order < 0;
        case AT_MOST -> order <= 0;
        case MORE -> order > 0;
        case AT_LEAST -> order >= 0;
        case EQUAL -> order == 0;
        case UNEQUAL -> order != 0;
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
      double x = NumberNode.number(number, frame);
      byte above = isAtMost(NumberNode.number(low, frame), x);
      return above == Truth.NO
          ? above
          : (byte) Math.min(above, isAtMost(x, NumberNode.number(high, frame)));
    }

    private static byte isAtMost(double a, double b) {
      if (Double.isNaN(a) || Double.isNaN(b)) {
        return Truth.OPEN;
      }
      return Truth.planned(!Quantity.isBelow(b, a));
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

  /** Whether a slot is known. */
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

  /** A definition, evaluated when it is asked for first. */
  record Definition(Expression syntax, Term term, int place, Alternatives alternatives)
      implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return (byte)
          (frame.hasTerm(place)
              ? frame.term(place)
              : frame.keepTerm(place, alternatives.truth(frame)));
    }
  }
}
