package org.gradus.rule.plan;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The planned alternatives of a definition: the first that applies gives the value. */
final class Alternatives {

  /** One alternative. */
  static final class Line {

    private final String label;
    private final TruthNode[] when;
    // The value by its type; both null when there is none in this case.
    private final @Nullable NumberNode number;
    private final @Nullable TruthNode truth;

    /**
     * @param label what it is called where it was chosen from a list, else empty
     * @param when all must hold
     * @param value the value; null when there is none in this case
     */
    Line(String label, List<TruthNode> when, @Nullable Planned value) {
      this.label = label;
      this.when = when.toArray(TruthNode[]::new);
      this.number = value instanceof NumberNode node ? node : null;
      this.truth = value instanceof TruthNode node ? node : null;
    }

    String label() {
      return label;
    }

    List<TruthNode> when() {
      return List.of(when);
    }

    @Nullable Planned value() {
      return number == null ? truth : number;
    }

    private byte applies(Frame frame) {
      byte all = Truth.YES;
      for (int i = 0; i < when.length && all != Truth.NO; i++) {
        all = (byte) Math.min(all, TruthNode.answer(when[i], frame));
      }
      return all;
    }

    private double number(Frame frame) {
      return number == null ? Double.NaN : NumberNode.number(number, frame);
    }

    private byte truth(Frame frame) {
      return truth == null ? Truth.OPEN : TruthNode.answer(truth, frame);
    }
  }

  private final Line[] lines;

  Alternatives(List<Line> lines) {
    this.lines = lines.toArray(Line[]::new);
  }

  List<Line> lines() {
    return List.of(lines);
  }

  /** The value of a definition that is a number; NaN when it is not known. */
  double number(Frame frame) {
    Line chosen = chosen(frame);
    return chosen == null ? Double.NaN : chosen.number(frame);
  }

  /** The value of a definition that is a condition. */
  byte truth(Frame frame) {
    Line chosen = chosen(frame);
    return chosen == null ? Truth.OPEN : chosen.truth(frame);
  }

  /** The line that applies; null when that is open or none does. */
  @Nullable Line chosen(Frame frame) {
    for (Line line : lines) {
      byte applies = line.applies(frame);
      if (applies != Truth.NO) {
        return applies == Truth.YES ? line : null;
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
