package org.gradus.rule.plan;

import java.util.List;
import java.util.Optional;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** A node that gives a number in the base unit of its kind, or NaN when it is not known. */
public sealed interface NumberNode extends Node
    permits BinaryNode,
        UnaryNode,
        NumberNode.AbsoluteDifference,
        NumberNode.Choice,
        NumberNode.Constant,
        NumberNode.Definition,
        NumberNode.Difference,
        NumberNode.OnLine,
        NumberNode.Slot,
        NumberNode.Solved {

  /** Its number on a frame; NaN when it is not known. */
  double value(Frame frame);

  /** All numbers it could be anywhere in a region. It may be wider than it has to be. */
  NumberRange range(Region region);

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
    } else if (node instanceof AbsoluteDifference difference) {
      return difference.value(frame);
    }
    return node.value(frame);
  }

  @Override
  default double slotValue(Frame frame) {
    return value(frame);
  }

  @Override
  default boolean isUnknown(Frame frame) {
    return Double.isNaN(value(frame));
  }

  @Override
  default Presence presence(Region region) {
    return region.range(this).presence();
  }

  /**
   * The part of a box in which it is known and stands in a relation to another node. Only what a
   * slot holds can be narrowed.
   *
   * @param box part of the region in which the other node is evaluated
   */
  default Box narrow(Relation relation, NumberNode other, Region region, Box box) {
    return box;
  }

  /** What the alternative is called that gives its number, if it is chosen from a list. */
  default Optional<String> chosen(Frame frame) {
    return Optional.empty();
  }

  // An overflow or a division by zero is unknown, never an infinity that comparisons believe.
  static double finite(double number) {
    return Double.isFinite(number) ? number : Double.NaN;
  }

  /** A figure. */
  record Constant(Expression syntax, double base) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return base;
    }

    @Override
    public NumberRange range(Region region) {
      return NumberRange.point(base);
    }
  }

  /** What a slot holds. */
  record Slot(Expression syntax, int index) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return frame.value(index);
    }

    @Override
    public NumberRange range(Region region) {
      return NumberRange.of(region.cell(index));
    }

    @Override
    public Box narrow(Relation relation, NumberNode other, Region region, Box box) {
      NumberRange by = region.range(other);
      return by.isEmpty()
          ? box
          : box.with(index, Narrowing.of((Cell.Range) box.cell(index), relation, by));
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
    public NumberRange range(Region region) {
      return NumberRange.of(region.cell(now)).minus(NumberRange.of(region.cell(earlier)));
    }

    @Override
    public List<Integer> slots() {
      return List.of(now, earlier);
    }
  }

  /** The frequent {@code abs(change(s, D))}. */
  record AbsoluteDifference(Expression syntax, int now, int earlier) implements NumberNode {
    @Override
    public double value(Frame frame) {
      return finite(Math.abs(frame.value(now) - frame.value(earlier)));
    }

    @Override
    public NumberRange range(Region region) {
      return NumberRange.of(region.cell(now))
          .minus(NumberRange.of(region.cell(earlier)))
          .absolute();
    }

    @Override
    public List<Integer> slots() {
      return List.of(now, earlier);
    }
  }

  /** {@code if condition then whenTrue else whenFalse}. */
  record Choice(Expression syntax, TruthNode condition, NumberNode whenTrue, NumberNode whenFalse)
      implements NumberNode, BranchNode {
    @Override
    public double value(Frame frame) {
      byte answer = TruthNode.answer(condition, frame);
      if (answer != PlannedTruth.OPEN) {
        return NumberNode.number(answer == PlannedTruth.YES ? whenTrue : whenFalse, frame);
      }
      double first = NumberNode.number(whenTrue, frame);
      return Quantity.same(first, NumberNode.number(whenFalse, frame)) ? first : Double.NaN;
    }

    @Override
    public NumberRange range(Region region) {
      Outcomes outcomes = region.outcomes(condition);
      if (outcomes.canBeUnknown()) {
        return region.range(whenTrue).join(region.range(whenFalse)).orUnknown();
      }
      NumberRange range = NumberRange.NONE;
      if (outcomes.canHold() || !outcomes.canFail()) {
        range = range.join(region.where(condition, true).range(whenTrue));
      }
      if (outcomes.canFail()) {
        range = range.join(region.where(condition, false).range(whenFalse));
      }
      return range;
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
    public NumberRange range(Region region) {
      NumberRange away = region.range(at).minus(NumberRange.of(region.cell(meanX)));
      NumberRange rise = NumberRange.of(region.cell(slope)).times(away);
      return NumberRange.of(region.cell(meanY)).plus(rise);
    }

    @Override
    public List<Node> parts() {
      return List.of(at);
    }

    @Override
    public List<Integer> slots() {
      return List.of(meanX, meanY, slope);
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
    public NumberRange range(Region region) {
      NumberRange start = region.range(atZero);
      NumberRange rise = region.range(atOne).minus(start);
      return region.range(wanted).minus(start).over(rise);
    }

    @Override
    public List<Node> parts() {
      return List.of(atZero, atOne, wanted);
    }
  }

  /** A definition that is a number. */
  record Definition(Expression syntax, Term term, int place, Alternatives alternatives)
      implements NumberNode, DefinitionNode {
    @Override
    public double value(Frame frame) {
      return frame.hasTerm(place)
          ? frame.term(place)
          : frame.keepTerm(place, alternatives.number(frame));
    }

    @Override
    public Optional<String> chosen(Frame frame) {
      return Optional.ofNullable(alternatives.chosen(frame))
          .map(Alternatives.Line::label)
          .filter(label -> !label.isEmpty());
    }

    @Override
    public NumberRange range(Region region) {
      return alternatives.range(region);
    }
  }
}
