package org.gradus.rule;

import org.gradus.diagnostic.Span;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression.Relation;

/**
 * A comparison inside a condition. {@code x between a and b} is two of them, {@code x >= a} and
 * {@code x <= b}, with the same whole.
 *
 * @param whole where all of it stands
 * @param relation how the sides are compared
 * @param left the left side
 * @param right the right side
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public record Compared(Span whole, Relation relation, Formula left, Formula right) {

  /** How far the left side lies above the right one; NaN when either is unknown. */
  public double excess(Frame frame) {
    return left.value(frame) - right.value(frame);
  }

  /** What is compared, in one line: {@code heart_rate >= 135 bpm}. */
  public String text() {
    return left.text() + " " + relation.symbol() + " " + right.text();
  }
}
