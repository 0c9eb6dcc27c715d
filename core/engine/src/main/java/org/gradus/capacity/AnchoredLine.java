package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.knowledge.LineRise;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.plan.Frame;

/**
 * The line through the selected stages and an anchor, such as rest. Its x is fitted on its y by
 * weighted least squares, since what may be off is x: each stage counts by the variance of its
 * reading, the anchor by its own.
 */
final class AnchoredLine {

  /** A point of the line; its weight is one over the variance of its x. */
  private record Point(double x, double y, double weight) {}

  private final List<Point> points = new ArrayList<>();
  private double meanX;
  private double meanY;
  private double sumXy;
  private double sumYy;

  private AnchoredLine() {}

  /**
   * Draws it.
   *
   * @param axes what it is drawn over
   * @param anchor the point it is drawn through besides the stages
   * @param stages what was known at the end of each
   * @param own where the anchor is known
   * @param shift by how much the anchor's x is moved
   */
  static StageLine through(
      Wiring.Line axes,
      Wiring.Line.Anchor anchor,
      List<Frame> stages,
      Frame own,
      double shift,
      StageLine.Bar bar,
      ReadingErrors errors) {
    AnchoredLine line = new AnchoredLine();
    for (Frame stage : stages) {
      Optional<Gap> gap = firstGap(stage, axes.x(), axes.y());
      if (gap.isPresent()) {
        return StageLine.none(gap.get());
      }
      double variance = errors.variance(stage, axes.x());
      if (!(variance > 0)) {
        return StageLine.none(Cause.UNWEIGHTED);
      }
      line.points.add(new Point(axes.x().value(stage), axes.y().value(stage), 1 / variance));
    }
    Optional<Gap> gap = firstGap(own, anchor.x(), anchor.y(), anchor.sd());
    if (gap.isPresent()) {
      return StageLine.none(gap.get());
    }
    double sd = anchor.sd().value(own);
    if (!(sd > 0)) {
      return StageLine.none(Gap.never(anchor.sdName(), Cause.UNDEFINED));
    }
    line.points.add(new Point(anchor.x().value(own) + shift, anchor.y().value(own), 1 / (sd * sd)));
    return line.fit(bar);
  }

  private static Optional<Gap> firstGap(Frame frame, Formula... formulas) {
    for (Formula formula : formulas) {
      if (Double.isNaN(formula.value(frame))) {
        return Optional.of(formula.gaps(frame).get(0));
      }
    }
    return Optional.empty();
  }

  private StageLine fit(StageLine.Bar bar) {
    double weights = 0;
    double lowest = Double.POSITIVE_INFINITY;
    double highest = Double.NEGATIVE_INFINITY;
    for (Point point : points) {
      weights += point.weight;
      meanX += point.weight * point.x;
      meanY += point.weight * point.y;
      lowest = Math.min(lowest, point.x);
      highest = Math.max(highest, point.x);
    }
    meanX /= weights;
    meanY /= weights;
    for (Point point : points) {
      double right = point.x - meanX;
      double up = point.y - meanY;
      sumXy += point.weight * right * up;
      sumYy += point.weight * up * up;
    }
    if (highest - lowest < bar.leastSpan()) {
      return StageLine.none(Cause.TOO_NARROW);
    } else if (!(sumXy > 0)) {
      return StageLine.none(Cause.NOT_RISING);
    } else if (bar.rise()
        .map(LineRise::standardErrors)
        .filter(n -> standardErrors() < n)
        .isPresent()) {
      return StageLine.none(Cause.RISE_UNCERTAIN);
    }
    return new StageLine(meanX, meanY, sumYy / sumXy, Optional.empty());
  }

  // How many standard errors the rise of x with y lies above zero, by the variances the points were
  // weighed with.
  private double standardErrors() {
    return sumXy / Math.sqrt(sumYy);
  }
}
