package org.gradus.capacity;

import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.apache.commons.math3.stat.regression.SimpleRegression;
import org.gradus.knowledge.LineRise;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;
import org.gradus.words.Language;

/**
 * The least-squares line through the selected stages. There is none through fewer than two stages,
 * none that does not rise clearly, and none through stages that lie closer together than the
 * estimate says, since a short line points anywhere. A line that is drawn through an anchor besides
 * the stages is an {@link AnchoredLine}, for which one stage is enough.
 *
 * @param meanX the mean of what is drawn to the right
 * @param meanY the mean of what is drawn upwards
 * @param slope how steeply it rises
 * @param fault why there is no line
 */
record StageLine(double meanX, double meanY, double slope, Optional<Gap> fault) {

  private static final String SUBJECT = Language.ENGLISH.say(ResultMessage.LINE_THROUGH_STAGES);

  /**
   * What a line has to fulfil beyond a slope above zero.
   *
   * @param leastSpan how far apart its stages lie at least, in base units
   * @param rise how clearly it rises, where a file says so
   */
  record Bar(double leastSpan, Optional<LineRise> rise) {}

  /** Fills the slots of every line that formulas of the protocol ask for. */
  static void fill(
      Frame frame, Protocol protocol, List<Frame> stages, Optional<Formula> leastSpan) {
    double least = leastSpan.isPresent() ? leastSpan.get().value(frame) : 0;
    Bar bar = new Bar(least, protocol.assessment().lineRise());
    fill(frame, protocol, protocol.wiring().lines(), stages, bar, line -> 0);
  }

  /**
   * Fills some of them again after something has been moved a little: any slope above zero will do.
   *
   * @param lines which
   * @param shift by how much the anchor of each line is moved
   */
  static void fillMoved(
      Frame frame,
      Protocol protocol,
      List<Wiring.Line> lines,
      List<Frame> stages,
      ToDoubleFunction<Wiring.Line> shift) {
    fill(frame, protocol, lines, stages, new Bar(0, Optional.empty()), shift);
  }

  private static void fill(
      Frame frame,
      Protocol protocol,
      List<Wiring.Line> lines,
      List<Frame> stages,
      Bar bar,
      ToDoubleFunction<Wiring.Line> shift) {
    ReadingErrors errors = new ReadingErrors(protocol);
    // An estimate from a moment has that moment for its only stage.
    List<Frame> points = stages.isEmpty() ? List.of(frame) : stages;
    for (Wiring.Line line : lines) {
      if (line.crossing().isPresent()) {
        Interpolation.fill(frame, protocol, points, line, line.crossing().get());
        continue;
      }
      StageLine found =
          line.anchor().isPresent()
              ? AnchoredLine.through(
                  line, line.anchor().get(), points, frame, shift.applyAsDouble(line), bar, errors)
              : through(points, line, bar, errors);
      line.slots().forEach(place -> found.fill(frame, place.slot(), place.aspect()));
    }
  }

  private static StageLine through(
      List<Frame> stages, Wiring.Line axes, Bar bar, ReadingErrors errors) {
    SimpleRegression line = new SimpleRegression();
    DoubleSummaryStatistics right = new DoubleSummaryStatistics();
    double sumUp = 0;
    for (Frame stage : stages) {
      double there = axes.x().value(stage);
      double up = axes.y().value(stage);
      if (Double.isNaN(there) || Double.isNaN(up)) {
        return none((Double.isNaN(there) ? axes.x() : axes.y()).gaps(stage).get(0));
      }
      line.addData(there, up);
      right.accept(there);
      sumUp += up;
    }
    double meanY = sumUp / stages.size();
    if (line.getN() < 2) {
      return none(Cause.TOO_FEW_STAGES);
    } else if (right.getMax() - right.getMin() < bar.leastSpan()) {
      return none(Cause.TOO_NARROW);
    } else if (!(line.getSlope() > 0)) {
      return none(Cause.NOT_RISING);
    } else if (bar.rise().isPresent()) {
      double needed = bar.rise().get().standardErrors();
      double found = standardErrors(stages, axes, line, right.getAverage(), meanY, errors);
      if (found < needed) {
        return none(Cause.RISE_UNCERTAIN);
      }
    }
    return new StageLine(right.getAverage(), meanY, line.getSlope(), Optional.empty());
  }

  // How many standard errors the slope lies above zero, were there no rise at all. The sum of
  // products of the deviations is zero then but for chance: by the errors of the readings on both
  // axes, or by the scatter around the line, whichever is more.
  private static double standardErrors(
      List<Frame> stages,
      Wiring.Line axes,
      SimpleRegression line,
      double meanX,
      double meanY,
      ReadingErrors errors) {
    double sxx = line.getXSumSquares();
    double syy = line.getTotalSumSquares();
    double sxy = line.getSumOfCrossProducts();
    double byReadings = 0;
    for (Frame stage : stages) {
      byReadings +=
          ReadingErrors.square(axes.y().value(stage) - meanY) * errors.variance(stage, axes.x())
              + ReadingErrors.square(axes.x().value(stage) - meanX)
                  * errors.variance(stage, axes.y());
    }
    long free = line.getN() - 2;
    double byScatter = free > 0 ? Math.max(0, sxx * syy - sxy * sxy) / free : 0;
    double variance = Math.max(byReadings, byScatter);
    return variance > 0 ? sxy / Math.sqrt(variance) : Double.POSITIVE_INFINITY;
  }

  static StageLine none(Cause cause) {
    return none(Gap.never(SUBJECT, cause));
  }

  static StageLine none(Gap fault) {
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
