package org.gradus.rule.plan;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.syntax.Expression;

/**
 * A planned part of a rule: a number or a truth. Each operator of the language is one kind of node,
 * which says what it is on a {@link Frame}, what it can be anywhere in a {@link Box}, and what has
 * to become known when it is unknown. Evaluating a node changes nothing but the values of
 * definitions that the frame keeps. Immutable.
 */
public sealed interface Node permits NumberNode, TruthNode, BranchNode, DefinitionNode {

  /** The part of the text it stands for. */
  Expression syntax();

  /** The nodes it evaluates. */
  default List<Node> parts() {
    return List.of();
  }

  /** The slots it reads itself. */
  default List<Integer> slots() {
    return List.of();
  }

  /** Its value as a slot would hold it; a truth is 1 or 0, and NaN is unknown. */
  double slotValue(Frame frame);

  /** Whether it has no value in this frame. */
  boolean isUnknown(Frame frame);

  /** Whether it could have a value, or none, somewhere in a region. */
  Presence presence(Region region);

  /**
   * Why it is unknown; empty when it is known. Closing all these gaps settles it, or leads to
   * further ones: of a definition with several alternatives only the one at issue is named.
   */
  default List<Gap> gaps(Frame frame) {
    Set<Gap> found = new LinkedHashSet<>();
    collectGaps(frame, found);
    return new ArrayList<>(found);
  }

  /** Adds what has to become known for it to be known; adds nothing when it is known. */
  default void collectGaps(Frame frame, Set<Gap> found) {
    if (isUnknown(frame)) {
      explainUnknown(frame, found);
    }
  }

  /** Adds why it is unknown. Called only when it is. */
  default void explainUnknown(Frame frame, Set<Gap> found) {
    boolean lacks = false;
    for (int slot : slots()) {
      if (!frame.isKnown(slot)) {
        lacks = true;
        found.add(frame.gap(slot));
      }
    }
    for (Node part : parts()) {
      lacks |= part.isUnknown(frame);
      part.collectGaps(frame, found);
    }
    // Everything it needs is known and still it has no value: there is none for these numbers.
    if (!lacks) {
      found.add(Gap.never(syntax().span().inOneLine(), causeOfNoValue()));
    }
  }

  /** Why it can have no value although everything it needs is known. */
  default Gap.Cause causeOfNoValue() {
    return Gap.Cause.UNDEFINED;
  }

  /** The comparisons in it, also inside definitions, that could come out either way in a box. */
  default List<String> undecided(Box box) {
    Set<String> found = new LinkedHashSet<>();
    collectUndecided(Region.of(box), found);
    return List.copyOf(found);
  }

  /** Adds the comparisons in it that could come out either way. */
  default void collectUndecided(Region region, Set<String> found) {
    for (Node part : parts()) {
      part.collectUndecided(region, found);
    }
  }
}
