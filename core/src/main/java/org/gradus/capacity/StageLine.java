package org.gradus.capacity;

import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Gap.Cause;

/**
 * The least-squares line through the selected stages. There is none through fewer than two stages,
 * none that does not rise, and none through stages that lie closer together than the estimate says,
 * since a short line points anywhere.
 *
 * @param meanX the mean of what is drawn to the right
 * @param meanY the mean of what is drawn upwards
 * @param slope how steeply it rises
 * @param fault why there is no line
 */
record StageLine(double meanX, double meanY, double slope, Optional<Gap> fault) {

  /** Fills the slots of every line that formulas of the protocol ask for. */
  static void fill(
      Frame frame, Protocol protocol, List<Frame> stages, Optional<Formula> leastSpan) {
    double least = leastSpan.isPresent() ? leastSpan.get().value(frame) : 0;
    for (Wiring.Line line : protocol.wiring().lines()) {
      StageLine found = through(stages, line.x(), line.y(), least);
      line.slots().forEach(place -> found.fill(frame, place.slot(), place.aspect()));
    }
  }

  private static StageLine through(List<Frame> stages, Formula x, Formula y, double leastSpan) {
    SimpleRegression line = new SimpleRegression();
    DoubleSummaryStatistics right = new DoubleSummaryStatistics();
    double sumUp = 0;
    for (Frame stage : stages) {
      double there = x.value(stage);
      double up = y.value(stage);
      if (Double.isNaN(there) || Double.isNaN(up)) {
        return none((Double.isNaN(there) ? x : y).gaps(stage).get(0));
      }
      line.addData(there, up);
      right.accept(there);
      sumUp += up;
    }
    if (line.getN() < 2) {
      return none(Cause.TOO_FEW_STAGES);
    } else if (right.getMax() - right.getMin() < leastSpan) {
      return none(Cause.TOO_NARROW);
    } else if (line.getSlope() > 0) {
      return new StageLine(
          right.getAverage(), sumUp / stages.size(), line.getSlope(), Optional.empty());
    }
    return none(Cause.NOT_RISING);
  }

  private static StageLine none(Cause cause) {
    return none(Gap.never("the line through the stages", cause));
  }

  private static StageLine none(Gap fault) {
    return new StageLine(Double.NaN, Double.NaN, Double.NaN, Optional.of(fault));
  }

  private void fill(Frame frame, int slot, Aspect aspect) {
    if (fault.isPresent()) {
      frame.miss(slot, fault.get());
      return;
    }
    double value =
        switch (aspect) {
          case LINE_MEAN_X -> meanX;
          case LINE_MEAN_Y -> meanY;
          default -> slope;
        };
    frame.set(slot, value, 0);
  }
}
