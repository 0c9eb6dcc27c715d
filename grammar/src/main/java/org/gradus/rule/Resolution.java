package org.gradus.rule;

import java.util.Optional;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Frame;

/** What readings leave open because they can only be read to a step. */
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
        },
        term -> exact(term, frame));
  }

  // What a rule has worked out already of exact values only is one number in all of the box.
  private static Optional<Cell.Range> exact(Term term, Frame frame) {
    if (!frame.hasWorkedOut(term) || !term.readsOnly(slot -> frame.halfWidth(slot) == 0)) {
      return Optional.empty();
    }
    double number = frame.workedOut(term);
    return Optional.of(
        new Cell.Range(number, number, Double.isNaN(number) ? Presence.UNKNOWN : Presence.KNOWN));
  }
}
