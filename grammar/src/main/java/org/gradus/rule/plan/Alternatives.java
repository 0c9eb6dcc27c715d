package org.gradus.rule.plan;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.BinaryOperator;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.bounds.Outcomes;
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
     * @param number the value of a definition that is a number; null when there is none
     * @param truth the value of a definition that is a condition; null when there is none
     */
    Line(
        String label,
        List<TruthNode> when,
        @Nullable NumberNode number,
        @Nullable TruthNode truth) {
      this.label = label;
      this.when = when.toArray(TruthNode[]::new);
      this.number = number;
      this.truth = truth;
    }

    String label() {
      return label;
    }

    List<TruthNode> when() {
      return List.of(when);
    }

    @Nullable Node value() {
      return number == null ? truth : number;
    }

    private byte applies(Frame frame) {
      byte all = PlannedTruth.YES;
      for (int i = 0; i < when.length && all != PlannedTruth.NO; i++) {
        all = (byte) Math.min(all, TruthNode.answer(when[i], frame));
      }
      return all;
    }

    private Outcomes applies(Region region) {
      Outcomes all = Outcomes.HOLDS;
      for (TruthNode condition : when) {
        all = all.and(region.outcomes(condition));
      }
      return all;
    }

    // The region in which it applies.
    private Region whereItApplies(Region region) {
      Region narrower = region;
      for (TruthNode condition : when) {
        narrower = narrower.where(condition, true);
      }
      return narrower;
    }

    // The region in which it does not: of several conditions it is not known which one fails.
    private Region whereItDoesNot(Region region) {
      return when.length == 1 ? region.where(when[0], false) : region;
    }

    private double number(Frame frame) {
      return number == null ? Double.NaN : NumberNode.number(number, frame);
    }

    private NumberRange range(Region region) {
      return number == null ? NumberRange.UNKNOWN : region.range(number);
    }

    private byte truth(Frame frame) {
      return truth == null ? PlannedTruth.OPEN : TruthNode.answer(truth, frame);
    }

    private Outcomes outcomes(Region region) {
      return truth == null ? Outcomes.UNKNOWN : region.outcomes(truth);
    }

    private void collectUndecided(Region region, Set<String> found) {
      for (TruthNode condition : when) {
        condition.collectUndecided(region, found);
      }
      Node value = value();
      if (value != null) {
        value.collectUndecided(region, found);
      }
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
    return chosen == null ? PlannedTruth.OPEN : chosen.truth(frame);
  }

  /** The value of a definition as a slot would hold it. */
  double slotValue(Frame frame) {
    Line chosen = chosen(frame);
    Node value = chosen == null ? null : chosen.value();
    return value == null ? Double.NaN : value.slotValue(frame);
  }

  /** All numbers that a definition could be. */
  NumberRange range(Region region) {
    return possible(region, NumberRange.NONE, NumberRange.UNKNOWN, NumberRange::join, Line::range);
  }

  /** All answers that a definition could give. */
  Outcomes outcomes(Region region) {
    return possible(region, Outcomes.NONE, Outcomes.UNKNOWN, Outcomes::join, Line::outcomes);
  }

  // Goes from line to line through the part of the region that is left for it.
  private <T> T possible(
      Region region,
      T none,
      T unknown,
      BinaryOperator<T> join,
      BiFunction<Line, Region, T> evaluated) {
    T all = none;
    Region left = region;
    for (Line line : lines) {
      Outcomes applies = line.applies(left);
      if (applies.canHold()) {
        // Where it surely applies there is nothing to leave out.
        Region inside = applies.alwaysHolds() ? left : line.whereItApplies(left);
        all = join.apply(all, evaluated.apply(line, inside));
      }
      if (applies.canBeUnknown()) {
        all = join.apply(all, unknown);
      }
      if (applies.alwaysHolds()) {
        return all;
      }
      left = applies.alwaysFails() ? left : line.whereItDoesNot(left);
    }
    return join.apply(all, unknown); // past the last line: none applies
  }

  /** The part of a box in which it gives this answer: of several lines it is not known which. */
  Box narrow(Region region, boolean answer) {
    TruthNode only = lines.length == 1 && lines[0].when.length == 0 ? lines[0].truth : null;
    return only == null ? region.box() : region.narrow(only, answer);
  }

  /** Adds every comparison in its lines that could come out either way. */
  void collectUndecided(Region region, Set<String> found) {
    for (Line line : lines) {
      line.collectUndecided(region, found);
    }
  }

  /** Adds why a definition of this name is unknown. */
  void explainUnknown(String name, Frame frame, Set<Gap> found) {
    Line chosen = chosen(frame);
    Node value = chosen == null ? null : chosen.value();
    if (value != null) {
      value.collectGaps(frame, found);
    } else {
      open(frame)
          .ifPresentOrElse(
              line -> line.when().forEach(condition -> condition.collectGaps(frame, found)),
              () -> found.add(Gap.never(name, Gap.Cause.NONE)));
    }
  }

  /** The line that applies; null when that is open or none does. */
  @Nullable Line chosen(Frame frame) {
    for (Line line : lines) {
      byte applies = line.applies(frame);
      if (applies != PlannedTruth.NO) {
        return applies == PlannedTruth.YES ? line : null;
      }
    }
    return null;
  }

  /** The line at which the choice stays open, if it does. */
  Optional<Line> open(Frame frame) {
    for (Line line : lines) {
      byte applies = line.applies(frame);
      if (applies != PlannedTruth.NO) {
        return applies == PlannedTruth.OPEN ? Optional.of(line) : Optional.empty();
      }
    }
    return Optional.empty();
  }
}
