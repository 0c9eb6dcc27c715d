package org.gradus.rule.plan;

import java.math.MathContext;
import org.gradus.rule.check.Checked;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;

/**
 * With how many digits the parts of a text are shown, so that the numbers agree with the verdict.
 */
final class Digits {

  private final Frame frame;
  private final Frame shortened;

  Digits(Frame frame) {
    this.frame = frame;
    this.shortened = shortened(frame);
  }

  private static Frame shortened(Frame frame) {
    Frame shortened = new Frame(frame.layout());
    for (int slot = 0; slot < frame.layout().size(); slot++) {
      if (frame.isKnown(slot)) {
        shortened.set(slot, Shown.rounded(frame.value(slot), Shown.SHORT), 0);
      }
    }
    return shortened;
  }

  /** The digits of what stands in a part, where the part itself is shown with so many. */
  MathContext inside(Checked checked, Expression part, MathContext digits) {
    return agrees(checked, part) ? digits : Shown.FULL;
  }

  // Whether somebody who calculates with the short numbers comes to the same verdict.
  private boolean agrees(Checked checked, Expression part) {
    return part.comparisons().stream()
        .allMatch(test -> agrees(checked, test.relation(), test.left(), test.right()));
  }

  private boolean agrees(Checked checked, Relation relation, Expression left, Expression right) {
    NumberNode first = (NumberNode) NodeBuilder.plan(checked, left);
    NumberNode second = (NumberNode) NodeBuilder.plan(checked, right);
    double a = first.value(frame);
    double b = second.value(frame);
    if (Double.isNaN(a) || Double.isNaN(b)) {
      return true;
    }
    boolean verdict = TruthNode.Compare.holds(relation, a, b);
    double shortA = first.value(shortened);
    double shortB = second.value(shortened);
    return TruthNode.Compare.holds(
                relation, Shown.rounded(a, Shown.SHORT), Shown.rounded(b, Shown.SHORT))
            == verdict
        && TruthNode.Compare.holds(relation, shortA, shortB) == verdict;
  }
}
