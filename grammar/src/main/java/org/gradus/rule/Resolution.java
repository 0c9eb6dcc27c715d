package org.gradus.rule;

import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Type;

/** What readings leave open because they can only be read to a step. */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Resolution {

  private Resolution() {}

  /**
   * All that the true values behind the readings of a frame could be, given their half-widths. The
   * frame is looked at as the box is, and must not be changed before.
   */
  public static Box around(Frame frame) {
    return Box.onDemand(
        frame.layout(),
        (slot, demand) -> {
          if (!frame.isKnown(slot)) {
            return Box.anything(demand.type()).with(Presence.UNKNOWN);
          }
          double value = frame.value(slot);
          if (demand.type() instanceof Type.Measure) {
            double half = frame.halfWidth(slot);
            return Cell.between(value - half, value + half);
          }
          return new Cell.Options(Cell.Options.bit((int) value), Presence.KNOWN);
        });
  }
}
