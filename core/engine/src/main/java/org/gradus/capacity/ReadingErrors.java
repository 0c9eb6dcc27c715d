package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import org.gradus.knowledge.Spread;
import org.gradus.knowledge.Spread.Per;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Formula;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/** How far single readings of a protocol may be off: by their steps and from one to the next. */
final class ReadingErrors {

  // A true value lies anywhere in the step to which it was read with equal likelihood, which has a
  // standard deviation of half the reading step / sqrt(3) (JCGM 100:2008, 4.3.7).
  private static final double UNIFORM = Math.sqrt(3);

  private final Protocol protocol;

  ReadingErrors(Protocol protocol) {
    this.protocol = protocol;
  }

  /** What is measured in a slot that holds a reading. */
  Kind kind(int slot) {
    return ((Type.Measure) protocol.wiring().layout().demands().get(slot).type()).kind();
  }

  /** The standard deviation that the step of the reading in a slot leaves. */
  double step(Frame frame, int slot) {
    return frame.halfWidth(slot) / UNIFORM;
  }

  /** What differs from reading to reading in a slot. */
  List<Spread> each(int slot) {
    List<Spread> each = new ArrayList<>();
    for (Spread spread : protocol.assessment().spreads()) {
      if (spread.of() == kind(slot) && spread.per() == Per.READING) {
        each.add(spread);
      }
    }
    return each;
  }

  /** The variance of the reading in a slot. */
  double variance(Frame frame, int slot) {
    double variance = square(step(frame, slot));
    for (Spread spread : each(slot)) {
      variance += square(spread.at(frame.value(slot)));
    }
    return variance;
  }

  /** The variance of a value that rests on readings, to first order. */
  double variance(Frame frame, Formula formula) {
    double sum = 0;
    for (int slot : formula.slots()) {
      if (protocol.wiring().isMeasured(slot) && frame.isKnown(slot)) {
        double sd = Math.sqrt(variance(frame, slot));
        Frame moved = frame.copy();
        moved.set(slot, frame.value(slot) + sd, 0);
        double up = formula.value(moved);
        moved.set(slot, frame.value(slot) - sd, 0);
        double half = (up - formula.value(moved)) / 2;
        sum += Double.isNaN(half) ? 0 : square(half);
      }
    }
    return sum;
  }

  static double square(double number) {
    return number * number;
  }
}
