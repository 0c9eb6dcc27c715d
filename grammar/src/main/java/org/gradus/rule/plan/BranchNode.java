package org.gradus.rule.plan;

import java.util.List;
import java.util.Set;
import org.gradus.rule.answer.Gap;

/** {@code if condition then whenTrue else whenFalse}, of numbers or of truths. */
sealed interface BranchNode extends Node permits NumberNode.Choice, TruthNode.Choice {

  TruthNode condition();

  Node whenTrue();

  Node whenFalse();

  @Override
  default List<Node> parts() {
    return List.of(condition(), whenTrue(), whenFalse());
  }

  // Where the condition is known the other branch does not matter.
  @Override
  default void explainUnknown(Frame frame, Set<Gap> found) {
    byte answer = condition().truth(frame);
    if (answer == PlannedTruth.OPEN) {
      Node.super.explainUnknown(frame, found);
    } else {
      (answer == PlannedTruth.YES ? whenTrue() : whenFalse()).collectGaps(frame, found);
    }
  }
}
