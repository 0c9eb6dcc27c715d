package org.gradus.rule.plan;

import java.util.List;
import org.gradus.rule.check.Checked;

/** A planned condition or value, ready to be evaluated on any frame of its layout. */
public final class Plan {

  private final Checked checked;
  private final Planned root;

  private Plan(Checked checked, Planned root) {
    this.checked = checked;
    this.root = root;
  }

  /** Plans a checked tree. */
  public static Plan of(Checked checked) {
    return new Plan(checked, Planner.plan(checked));
  }

  /** What was planned. */
  public Checked checked() {
    return checked;
  }

  /** The answer of a condition. */
  public Truth truth(Frame frame) {
    return Truth.of(((TruthNode) root).truth(frame));
  }

  /** The number of a value in the base unit of its kind; NaN when it is not known. */
  public double value(Frame frame) {
    return ((NumberNode) root).value(frame);
  }

  /**
   * Why it is unknown; empty when it is known. Closing all these gaps settles it, or leads to
   * further ones: of a definition with several alternatives only the one at issue is looked into.
   */
  public List<Gap> gaps(Frame frame) {
    return Gaps.of(root, frame);
  }

  /** Its text with the numbers of a frame filled in. */
  public Filled filled(Frame frame) {
    return new Filler(frame).fill(checked);
  }
}
