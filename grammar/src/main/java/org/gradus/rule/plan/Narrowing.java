package org.gradus.rule.plan;

import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/** What is left of the range of a slot when it is compared with something and the answer known. */
final class Narrowing {

  private Narrowing() {}

  /** The numbers of a cell that stand in a relation to one of some others. */
  static Cell.Range of(Cell.Range cell, Relation relation, NumberRange other) {
    double low = cell.low();
    double high = cell.high();
    // To the last double, so that a condition and its contrary leave no crack between them.
    switch (relation) {
      case LESS -> high = Math.min(high, Math.nextDown(lastSame(other.high(), -1)));
      case AT_MOST -> high = Math.min(high, lastSame(other.high(), 1));
      case MORE -> low = Math.max(low, Math.nextUp(lastSame(other.low(), 1)));
      case AT_LEAST -> low = Math.max(low, lastSame(other.low(), -1));
      case EQUAL -> {
        low = Math.max(low, lastSame(other.low(), -1));
        high = Math.min(high, lastSame(other.high(), 1));
      }
      case UNEQUAL -> {
        // nothing to narrow but that it is known
      }
    }
    return low <= high ? new Cell.Range(low, high, Presence.KNOWN) : cell.with(Presence.KNOWN);
  }

  // The number farthest below (-1) or above (1) another that still counts as equal to it.
  private static double lastSame(double number, int direction) {
    if (Double.isInfinite(number)) {
      return number;
    }
    double away = direction * Double.POSITIVE_INFINITY;
    double last = number + direction * Math.abs(number) * 1e-9;
    while (Quantity.same(last, number)) {
      last = Math.nextAfter(last, away);
    }
    while (!Quantity.same(last, number)) {
      last = Math.nextAfter(last, -away);
    }
    return last;
  }
}
