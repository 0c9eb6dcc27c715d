package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.syntax.Expression;

/** A node of a plan. Evaluating it changes nothing but the memory of terms in the frame. */
sealed interface Planned permits NumberNode, TruthNode {

  /** The part of the text it stands for. */
  Expression syntax();

  /** The nodes it evaluates. */
  default List<Planned> parts() {
    return List.of();
  }

  /** The slots it reads itself. */
  default List<Integer> slots() {
    return List.of();
  }

  /** Whether it has no value in this frame. */
  boolean isUnknown(Frame frame);
}
