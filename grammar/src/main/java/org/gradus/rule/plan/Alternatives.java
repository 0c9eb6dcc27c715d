package org.gradus.rule.plan;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The planned alternatives of a definition: the first that applies gives the value. */
record Alternatives(List<Line> lines) {

  /**
   * One alternative.
   *
   * @param label what it is called where it was chosen from a list, else empty
   * @param when all must hold
   * @param value the value; null when there is none in this case
   */
  record Line(String label, List<TruthNode> when, @Nullable Planned value) {

    byte applies(Frame frame) {
      byte all = Truth.YES;
      for (int i = 0; i < when.size() && all != Truth.NO; i++) {
        all = (byte) Math.min(all, when.get(i).truth(frame));
      }
      return all;
    }

    double value(Frame frame) {
      if (value instanceof NumberNode number) {
        return number.value(frame);
      }
      return value instanceof TruthNode truth ? number(truth, frame) : Double.NaN;
    }
  }

  /** A truth as it is kept in a frame: 1, 0, or NaN when it is open. */
  static double number(TruthNode node, Frame frame) {
    byte answer = node.truth(frame);
    return answer == Truth.OPEN ? Double.NaN : answer == Truth.YES ? 1 : 0;
  }

  double value(Frame frame) {
    Line chosen = chosen(frame);
    return chosen == null ? Double.NaN : chosen.value(frame);
  }

  /** The line that applies; null when that is open or none does. */
  @Nullable Line chosen(Frame frame) {
    for (int i = 0; i < lines.size(); i++) {
      byte applies = lines.get(i).applies(frame);
      if (applies != Truth.NO) {
        return applies == Truth.YES ? lines.get(i) : null;
      }
    }
    return null;
  }

  /** The line at which the choice stays open, if it does. */
  Optional<Line> open(Frame frame) {
    for (Line line : lines) {
      byte applies = line.applies(frame);
      if (applies != Truth.NO) {
        return applies == Truth.OPEN ? Optional.of(line) : Optional.empty();
      }
    }
    return Optional.empty();
  }
}
