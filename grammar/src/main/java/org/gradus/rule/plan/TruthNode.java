package org.gradus.rule.plan;

import java.util.List;
import java.util.Set;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** A node that gives yes, no or open as one byte. */
public sealed interface TruthNode extends Node {

  /** Its answer on a frame, as {@link Truth} plans it. */
  byte truth(Frame frame);

  /** All answers it could give anywhere in a region. It may name one that cannot happen. */
  Outcomes outcomes(Region region);

  /**
   * The part of the region's box in which it is known and gives this answer. What it says in a way
   * that no box can express narrows nothing, which is always safe.
   */
  Box narrow(Region region, boolean answer);

  /** The answer of a node on a frame. */
  static Truth test(TruthNode node, Frame frame) {
    return PlannedTruth.truth(answer(node, frame));
  }

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
  default double slotValue(Frame frame) {
    byte answer = truth(frame);
    return answer == PlannedTruth.OPEN ? Double.NaN : answer == PlannedTruth.YES ? 1 : 0;
  }

  @Override
  default boolean isUnknown(Frame frame) {
    return truth(frame) == PlannedTruth.OPEN;
  }

  @Override
  default Presence presence(Region region) {
    Outcomes outcomes = region.outcomes(this);
    return Presence.of(outcomes.canHold() || outcomes.canFail(), outcomes.canBeUnknown());
  }

  private static byte fromNumber(double number) {
    return Double.isNaN(number) ? PlannedTruth.OPEN : PlannedTruth.of(number != 0);
  }

  /** The condition that a slot holds. */
  record Slot(Expression syntax, int index) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return fromNumber(frame.value(index));
    }

    @Override
    public Outcomes outcomes(Region region) {
      return ((Cell.Options) region.cell(index)).isOneOf(Cell.Options.YES);
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      Cell.Options cell = (Cell.Options) region.cell(index);
      return region.box().with(index, cell.where(Cell.Options.YES, answer));
    }

    @Override
    public List<Integer> slots() {
      return List.of(index);
    }
  }

  /** An answer that is fixed when the file is read. */
  record Fixed(Expression syntax, boolean answer) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return PlannedTruth.of(answer);
    }

    @Override
    public Outcomes outcomes(Region region) {
      return answer ? Outcomes.HOLDS : Outcomes.FAILS;
    }

    @Override
    public Box narrow(Region region, boolean wanted) {
      return region.box();
    }
  }

  /** {@code left and right}. */
  record And(Expression syntax, TruthNode left, TruthNode right) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      byte first = TruthNode.answer(left, frame);
      return first == PlannedTruth.NO
          ? first
          : (byte) Math.min(first, TruthNode.answer(right, frame));
    }

    // The right side matters only where the left holds: "known(x) and x > 5". Where the left may be
    // unknown, or surely holds, it has to be evaluated over all of the region.
    @Override
    public Outcomes outcomes(Region region) {
      Outcomes first = region.outcomes(left);
      if (first.alwaysFails()) {
        return first;
      }
      boolean all = first.alwaysHolds() || first.canBeUnknown();
      return first.and((all ? region : region.where(left, true)).outcomes(right));
    }

    // That it fails does not say which side does.
    @Override
    public Box narrow(Region region, boolean answer) {
      return answer ? region.where(left, true).narrow(right, true) : region.box();
    }

    @Override
    public List<Node> parts() {
      return List.of(left, right);
    }
  }

  /** {@code left or right}. */
  record Or(Expression syntax, TruthNode left, TruthNode right) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      byte first = TruthNode.answer(left, frame);
      return first == PlannedTruth.YES
          ? first
          : (byte) Math.max(first, TruthNode.answer(right, frame));
    }

    // As with "and", the right side matters only where the left fails.
    @Override
    public Outcomes outcomes(Region region) {
      Outcomes first = region.outcomes(left);
      if (first.alwaysHolds()) {
        return first;
      }
      boolean all = first.alwaysFails() || first.canBeUnknown();
      return first.or((all ? region : region.where(left, false)).outcomes(right));
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      return answer ? region.box() : region.where(left, false).narrow(right, false);
    }

    @Override
    public List<Node> parts() {
      return List.of(left, right);
    }
  }

  /** {@code not operand}. */
  record Not(Expression syntax, TruthNode operand) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return (byte) -TruthNode.answer(operand, frame);
    }

    @Override
    public Outcomes outcomes(Region region) {
      return region.outcomes(operand).not();
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      return region.narrow(operand, !answer);
    }

    @Override
    public List<Node> parts() {
      return List.of(operand);
    }
  }

  /** A comparison, with its answers for a left side that is below, equal and above. */
  record Compare(
      Expression syntax,
      Relation relation,
      NumberNode left,
      NumberNode right,
      byte below,
      byte same,
      byte above)
      implements TruthNode {

    static Compare of(Expression syntax, Relation relation, NumberNode left, NumberNode right) {
      return new Compare(
          syntax,
          relation,
          left,
          right,
          PlannedTruth.of(relation.holds(-1)),
          PlannedTruth.of(relation.holds(0)),
          PlannedTruth.of(relation.holds(1)));
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
      return Double.isNaN(a) || Double.isNaN(b) ? PlannedTruth.OPEN : same;
    }

    static boolean holds(Relation relation, double a, double b) {
      return relation.holds(Quantity.isBelow(a, b) ? -1 : Quantity.isBelow(b, a) ? 1 : 0);
    }

    @Override
    public Outcomes outcomes(Region region) {
      NumberRange a = region.range(left);
      NumberRange b = region.range(right);
      return switch (relation) {
        case LESS -> a.isBelow(b);
        case AT_MOST -> a.isAtMost(b);
        case MORE -> b.isBelow(a);
        case AT_LEAST -> b.isAtMost(a);
        case EQUAL -> a.isEqualTo(b);
        case UNEQUAL -> a.isEqualTo(b).not();
      };
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      Relation known = answer ? relation : relation.opposite();
      Box narrower = left.narrow(known, right, region, region.box());
      return right.narrow(known.mirrored(), left, region, narrower);
    }

    @Override
    public void collectUndecided(Region region, Set<String> found) {
      TruthNode.addIfUndecided(this, region, found);
      TruthNode.super.collectUndecided(region, found);
    }

    @Override
    public List<Node> parts() {
      return List.of(left, right);
    }
  }

  private static void addIfUndecided(TruthNode node, Region region, Set<String> found) {
    Outcomes outcomes = region.outcomes(node);
    if (outcomes.canHold() && outcomes.canFail()) {
      found.add(node.syntax().span().inOneLine());
    }
  }

  /** {@code number between low and high}, both ends included. */
  record Between(Expression syntax, NumberNode number, NumberNode low, NumberNode high)
      implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      double x = NumberNode.number(number, frame);
      byte above = isAtMost(NumberNode.number(low, frame), x);
      return above == PlannedTruth.NO
          ? above
          : (byte) Math.min(above, isAtMost(x, NumberNode.number(high, frame)));
    }

    private static byte isAtMost(double a, double b) {
      if (Double.isNaN(a) || Double.isNaN(b)) {
        return PlannedTruth.OPEN;
      }
      return PlannedTruth.of(!Quantity.isBelow(b, a));
    }

    @Override
    public Outcomes outcomes(Region region) {
      NumberRange x = region.range(number);
      return region.range(low).isAtMost(x).and(x.isAtMost(region.range(high)));
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      return region.box();
    }

    @Override
    public void collectUndecided(Region region, Set<String> found) {
      TruthNode.addIfUndecided(this, region, found);
      TruthNode.super.collectUndecided(region, found);
    }

    @Override
    public List<Node> parts() {
      return List.of(number, low, high);
    }
  }

  /**
   * {@code slot is option}, or is not.
   *
   * @param option the place of the option among those of the choice
   * @param options how many options the choice has
   */
  record IsOption(Expression syntax, int slot, int option, int options, boolean negated)
      implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      double chosen = frame.value(slot);
      return Double.isNaN(chosen)
          ? PlannedTruth.OPEN
          : PlannedTruth.of((chosen == option) != negated);
    }

    @Override
    public Outcomes outcomes(Region region) {
      Outcomes is = ((Cell.Options) region.cell(slot)).isOneOf(Cell.Options.bit(option));
      // Behind a shared bit there may be another option.
      Outcomes plain = is.canHold() && isShared() ? is.join(Outcomes.FAILS) : is;
      return negated ? plain.not() : plain;
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      boolean isIt = answer != negated;
      // That it is not one of those that share a bit leaves the others.
      long wanted = !isIt && isShared() ? 0 : Cell.Options.bit(option);
      Cell.Options cell = (Cell.Options) region.cell(slot);
      return region.box().with(slot, cell.where(wanted, isIt));
    }

    private boolean isShared() {
      return Cell.Options.isShared(Cell.Options.bit(option), options);
    }

    @Override
    public List<Integer> slots() {
      return List.of(slot);
    }
  }

  /** Asks whether something is known; itself never open. */
  record Known(Expression syntax, Node subject) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return PlannedTruth.of(!subject.isUnknown(frame));
    }

    @Override
    public Outcomes outcomes(Region region) {
      return isKnown(subject.presence(region));
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      return region.box();
    }

    @Override
    public List<Node> parts() {
      return List.of(subject);
    }

    private static Outcomes isKnown(Presence presence) {
      return new Outcomes(presence.canBeKnown(), presence.canBeUnknown(), false);
    }
  }

  /** Whether a slot is known. */
  record KnownSlot(Expression syntax, int slot) implements TruthNode {
    @Override
    public byte truth(Frame frame) {
      return PlannedTruth.of(frame.isKnown(slot));
    }

    @Override
    public Outcomes outcomes(Region region) {
      return Known.isKnown(region.cell(slot).presence());
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      Presence presence = answer ? Presence.KNOWN : Presence.UNKNOWN;
      return region.box().with(slot, region.cell(slot).with(presence));
    }
  }

  /** {@code if condition then whenTrue else whenFalse}. */
  record Choice(Expression syntax, TruthNode condition, TruthNode whenTrue, TruthNode whenFalse)
      implements TruthNode, BranchNode {
    @Override
    public byte truth(Frame frame) {
      byte answer = condition.truth(frame);
      if (answer != PlannedTruth.OPEN) {
        return (answer == PlannedTruth.YES ? whenTrue : whenFalse).truth(frame);
      }
      byte first = whenTrue.truth(frame);
      return first == whenFalse.truth(frame) ? first : PlannedTruth.OPEN;
    }

    @Override
    public Outcomes outcomes(Region region) {
      Outcomes outcomes = region.outcomes(condition);
      if (outcomes.canBeUnknown()) {
        return Outcomes.UNKNOWN.join(region.outcomes(whenTrue)).join(region.outcomes(whenFalse));
      }
      Outcomes joined = Outcomes.NONE;
      if (outcomes.canHold()) {
        joined = joined.join(region.where(condition, true).outcomes(whenTrue));
      }
      if (outcomes.canFail()) {
        joined = joined.join(region.where(condition, false).outcomes(whenFalse));
      }
      return joined;
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      return region.box();
    }
  }

  /** A definition that is a condition. */
  record Definition(Expression syntax, Term term, int place, Alternatives alternatives)
      implements TruthNode, DefinitionNode {
    @Override
    public byte truth(Frame frame) {
      return (byte)
          (frame.hasTerm(place)
              ? frame.term(place)
              : frame.keepTerm(place, alternatives.truth(frame)));
    }

    @Override
    public Outcomes outcomes(Region region) {
      return alternatives.outcomes(region);
    }

    @Override
    public Box narrow(Region region, boolean answer) {
      return alternatives.narrow(region, answer);
    }
  }
}
