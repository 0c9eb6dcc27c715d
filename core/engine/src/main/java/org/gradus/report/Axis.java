package org.gradus.report;

import java.util.ArrayList;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.stream.DoubleStream;

/**
 * A scale from one round number to another.
 *
 * @param from its lower end
 * @param to its upper end
 * @param step from one mark to the next
 */
record Axis(double from, double to, double step) {

  private static final int MOST_MARKS = 11;

  /** A scale that holds all of some values, with a little room around them. */
  static Axis over(DoubleStream values) {
    DoubleSummaryStatistics all = values.summaryStatistics();
    double span = Math.max(1, all.getMax() - all.getMin());
    double rough = Math.pow(10, Math.floor(Math.log10(span)));
    double step = span / rough > 5 ? rough : span / rough > 2 ? rough / 2 : rough / 5;
    double from = Math.floor((all.getMin() - step / 4) / step) * step;
    double to = Math.ceil((all.getMax() + step / 4) / step) * step;
    return new Axis(from, to, step);
  }

  /** A scale of minutes from one second to another. */
  static Axis ofSeconds(double from, double to) {
    double start = Math.floor(from / 60) * 60;
    double end = Math.max(start + 60, Math.ceil(to / 60) * 60);
    double step = 60;
    for (double wider : new double[] {120, 180, 300, 600, 1200, 3600, 7200, 14_400}) {
      if ((end - start) / step > MOST_MARKS) {
        step = wider;
      }
    }
    return new Axis(start, end, step);
  }

  double share(double value) {
    return (value - from) / (to - from);
  }

  List<Double> marks() {
    List<Double> marks = new ArrayList<>();
    for (int i = 0; from + i * step <= to + step / 1000; i++) {
      marks.add(from + i * step);
    }
    return marks;
  }
}
