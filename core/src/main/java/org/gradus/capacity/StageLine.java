package org.gradus.capacity;

import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Formula;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Gap.Cause;

/**
 * The least-squares line through the selected stages. There is none through fewer than two stages,
 * none that does not rise, and none through stages that lie closer together than the estimate says,
 * since a short line points anywhere.
 */
final class StageLine {

  private StageLine() {}

  /** Fills the slots of every line that formulas of the protocol ask for. */
  static void fill(
      Frame frame, Protocol protocol, List<Frame> stages, Optional<Formula> leastSpan) {
    double least = leastSpan.map(span -> span.value(frame)).orElse(0.0);
    List<Demand> demands = frame.layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      if (isLine(demand.aspect())) {
        fill(frame, slot, demand, protocol, stages, least);
      }
    }
  }

  private static boolean isLine(Aspect aspect) {
    return aspect == Aspect.LINE_MEAN_X
        || aspect == Aspect.LINE_MEAN_Y
        || aspect == Aspect.LINE_SLOPE;
  }

  private static void fill(
      Frame frame,
      int slot,
      Demand demand,
      Protocol protocol,
      List<Frame> stages,
      double leastSpan) {
    Formula y = axis(protocol, demand.subjects().get(0));
    Formula x = axis(protocol, demand.subjects().get(1));
    SimpleRegression line = new SimpleRegression();
    double low = Double.POSITIVE_INFINITY;
    double high = Double.NEGATIVE_INFINITY;
    double sum = 0;
    for (Frame stage : stages) {
      List<Gap> gaps = Double.isNaN(x.value(stage)) ? x.gaps(stage) : y.gaps(stage);
      if (!gaps.isEmpty()) {
        frame.miss(slot, gaps.get(0));
        return;
      }
      line.addData(x.value(stage), y.value(stage));
      low = Math.min(low, x.value(stage));
      high = Math.max(high, x.value(stage));
      sum += y.value(stage);
    }
    Optional<Cause> fault = fault(line, high - low, leastSpan);
    if (fault.isPresent()) {
      frame.miss(slot, Gap.never("the line through the stages", fault.get()));
      return;
    }
    double meanX = meanX(stages, x);
    double value =
        switch (demand.aspect()) {
          case LINE_MEAN_X -> meanX;
          case LINE_MEAN_Y -> sum / stages.size();
          default -> line.getSlope();
        };
    frame.set(slot, value, 0);
  }

  private static double meanX(List<Frame> stages, Formula x) {
    return stages.stream().mapToDouble(x::value).average().orElseThrow();
  }

  private static Optional<Cause> fault(SimpleRegression line, double span, double leastSpan) {
    if (line.getN() < 2) {
      return Optional.of(Cause.TOO_FEW_STAGES);
    } else if (span < leastSpan) {
      return Optional.of(Cause.TOO_NARROW);
    }
    return line.getSlope() > 0 ? Optional.empty() : Optional.of(Cause.NOT_RISING);
  }

  private static Formula axis(Protocol protocol, String name) {
    return Optional.ofNullable(protocol.wiring().axes().get(name)).orElseThrow();
  }
}
