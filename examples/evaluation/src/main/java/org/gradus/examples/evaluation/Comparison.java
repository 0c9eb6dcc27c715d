package org.gradus.examples.evaluation;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.examples.evaluation.Measurements.Maximum;
import org.gradus.examples.evaluation.Measurements.Test;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * How an estimate compares with what was measured.
 *
 * @param study where
 * @param estimate its id
 * @param maximum the maximal heart rate it was made with
 * @param tests of how many tests it could be made
 * @param bias the mean of estimate less measurement, in mL/kg/min
 * @param spread the standard deviation of it
 * @param error the root of its mean square
 * @param coverage the part of the 95 % intervals that hold the measurement, in per cent
 * @param width the mean width of the intervals
 */
record Comparison(
    Study study,
    String estimate,
    Maximum maximum,
    int tests,
    double bias,
    double spread,
    double error,
    double coverage,
    double width) {

  /** All estimates of a study. */
  static List<Comparison> all(Study study, Maximum maximum) {
    List<Test> tests = Measurements.of(study, maximum);
    return tests.get(0).estimated().estimates().stream()
        .map(estimate -> of(study, maximum, tests, estimate.id()))
        .toList();
  }

  private static Comparison of(Study study, Maximum maximum, List<Test> tests, String estimate) {
    List<Double> errors = new ArrayList<>();
    int covered = 0;
    double widths = 0;
    for (Test test : tests) {
      Optional<Estimate> found = test.estimated().estimate(estimate);
      if (found.orElseThrow() instanceof Estimate.Available available) {
        Interval interval = available.interval().orElseThrow();
        errors.add(available.vo2max().amount() - test.measured());
        widths += interval.high().amount() - interval.low().amount();
        covered += interval.holds(Quantity.of(test.measured(), Unit.ML_PER_KG_PER_MINUTE)) ? 1 : 0;
      }
    }
    int n = errors.size();
    double bias = errors.stream().mapToDouble(error -> error).average().orElseThrow();
    double about = errors.stream().mapToDouble(error -> (error - bias) * (error - bias)).sum();
    double squares = errors.stream().mapToDouble(error -> error * error).sum();
    return new Comparison(
        study,
        estimate,
        maximum,
        n,
        bias,
        Math.sqrt(about / (n - 1)),
        Math.sqrt(squares / n),
        100.0 * covered / n,
        widths / n);
  }

  /** As a row of a table. */
  String row() {
    return String.format(
        Locale.ROOT,
        "| %s | %s | %s | %d | %+.1f | %.1f | %.2f | %.0f %% | %.1f |",
        study.title(),
        estimate.replace('_', ' '),
        maximum.name().toLowerCase(Locale.ROOT),
        tests,
        bias,
        spread,
        error,
        coverage,
        width);
  }
}
