package org.gradus.rule;

import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Diagram;
import org.gradus.rule.answer.Filled;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Checker;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Drawer;
import org.gradus.rule.plan.Filler;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.NodeBuilder;
import org.gradus.rule.plan.Region;
import org.gradus.rule.plan.TruthNode;
import org.gradus.rule.syntax.Expression;

/**
 * A condition ready to be asked. Immutable; it may be shared by any number of sessions and threads.
 */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Condition {

  private final Checked checked;
  private final TruthNode root;
  private final int[] slots;
  private final Set<Demand> demands;

  private Condition(Checked checked) {
    this.checked = checked;
    this.root = NodeBuilder.condition(checked);
    this.slots = checked.slots().stream().mapToInt(PartMeaning.Slot::index).distinct().toArray();
    this.demands =
        checked.slots().stream()
            .map(PartMeaning.Slot::demand)
            .collect(Collectors.toUnmodifiableSet());
  }

  /** Checks and plans a condition; notes what is wrong with it and gives nothing if anything is. */
  public static Optional<Condition> of(
      Expression text, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    return Checker.condition(text, vocabulary, layout, problems).map(Condition::new);
  }

  /** What it is made of. */
  public Anatomy anatomy() {
    return Anatomy.of(checked);
  }

  /** Where it stands. */
  public Span span() {
    return checked.root().span();
  }

  /** Its answer on what is known. */
  public Truth test(Frame frame) {
    return TruthNode.test(root, frame);
  }

  /**
   * Why it is unknown; empty when it is known. Closing all these gaps settles it, or leads to
   * further ones: of a definition with several alternatives only the one at issue is looked into.
   */
  public List<Gap> gaps(Frame frame) {
    return root.gaps(frame);
  }

  /** Its text with the numbers filled in. */
  public Filled filled(Frame frame) {
    return Filler.fill(checked, frame);
  }

  /**
   * Its text with the value of every part under it, and the same for the definitions it uses.
   *
   * @param now in seconds since the start; the age of a reading is counted up to it
   */
  public Diagram diagram(Frame frame, double now) {
    return diagram(frame, checked.root().span(), now);
  }

  Diagram diagram(Frame frame, Span whole, double now) {
    return Drawer.draw(checked, frame, whole, now);
  }

  /** What it could come to anywhere in a box. */
  public Outcomes outcomes(Box box) {
    return Region.of(box).outcomes(root);
  }

  /** Whether every value it asks for is exact, or missing. It then has one answer only. */
  public boolean isExact(Frame frame) {
    for (int slot : slots) {
      if (frame.halfWidth(slot) != 0) {
        return false;
      }
    }
    return true;
  }

  /** Whether it asks for any of some slots, also by way of definitions. */
  public boolean asksForAny(BitSet some) {
    for (int slot : slots) {
      if (some.get(slot)) {
        return true;
      }
    }
    return false;
  }

  /** The comparisons in it that could come out either way in a box. */
  public List<String> undecided(Box box) {
    return root.undecided(box);
  }

  /** The part of a box in which it holds. */
  public Box whereItHolds(Box box) {
    return Region.of(box).narrow(root, true);
  }

  /** The part of a box in which it is known to fail. */
  public Box whereItFails(Box box) {
    return Region.of(box).narrow(root, false);
  }

  /**
   * Whether the word of a setting decides something in it: another word may switch it on or off.
   */
  public boolean dependsOnWord() {
    return checked.dependsOnWord();
  }

  /** Everything it asks for, also by way of definitions. */
  public Set<Demand> demands() {
    return demands;
  }
}
