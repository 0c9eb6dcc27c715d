package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.io.Serializable;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import org.gradus.trial.Run.End;

/**
 * What some people came to together. Tallies are added up in the order of the people, so that the
 * sum is the same to the last digit however the work was shared.
 *
 * @param people how many
 * @param ends how they ended
 * @param rules by which rule or reason, and how often
 * @param seconds all exercise together
 * @param decisions decisions that were followed
 * @param marginal how many of them could have been flipped by the readings' own steps
 * @param held people who were held at least once
 * @param estimates how many estimates there are
 * @param error the sum of estimate less truth
 * @param squares the sum of its squares
 * @param judged estimates with an interval
 * @param covered those of them whose interval holds the truth
 * @param results how each further result is spread, by its id
 * @param recoveries with which verdict recovery ended, and how often
 */
public record Tally(
    long people,
    Map<End, Long> ends,
    Map<String, Long> rules,
    double seconds,
    long decisions,
    long marginal,
    long held,
    long estimates,
    double error,
    double squares,
    long judged,
    long covered,
    Map<String, Figures> results,
    Map<String, Long> recoveries)
    implements Serializable {

  static final Tally NONE =
      new Tally(0, Map.of(), Map.of(), 0, 0, 0, 0, 0, 0, 0, 0, 0, Map.of(), Map.of());

  public Tally {
    requireNonNull(ends, "ends");
    requireNonNull(recoveries, "recoveries");
    requireNonNull(results, "results");
    requireNonNull(rules, "rules");
    ends = Collections.unmodifiableMap(new TreeMap<>(ends));
    rules = Collections.unmodifiableMap(new TreeMap<>(rules));
    results = Collections.unmodifiableMap(new TreeMap<>(results));
    recoveries = Collections.unmodifiableMap(new TreeMap<>(recoveries));
  }

  Tally and(Tally other) {
    return new Tally(
        people + other.people,
        sum(ends, other.ends),
        sum(rules, other.rules),
        seconds + other.seconds,
        decisions + other.decisions,
        marginal + other.marginal,
        held + other.held,
        estimates + other.estimates,
        error + other.error,
        squares + other.squares,
        judged + other.judged,
        covered + other.covered,
        joined(results, other.results),
        sum(recoveries, other.recoveries));
  }

  private static <K extends Comparable<K>> Map<K, Long> sum(Map<K, Long> some, Map<K, Long> more) {
    Map<K, Long> all = new TreeMap<>(some);
    more.forEach((key, count) -> all.merge(key, count, Long::sum));
    return all;
  }

  private static Map<String, Figures> joined(Map<String, Figures> some, Map<String, Figures> more) {
    Map<String, Figures> all = new TreeMap<>(some);
    more.forEach((id, figures) -> all.merge(id, figures, Figures::and));
    return all;
  }

  /** How many ended so. */
  public long ended(End end) {
    requireNonNull(end, "end");
    return ends.getOrDefault(end, 0L);
  }

  /** Mean minutes of exercise of those who began; NaN when nobody did. */
  public double minutes() {
    return seconds / 60 / (people - ended(End.DEFERRED));
  }

  /** Estimate less truth on average, in mL/kg/min; NaN without estimates. */
  public double bias() {
    return error / estimates;
  }

  /** The standard deviation of estimate less truth, in mL/kg/min; NaN below two estimates. */
  public double spread() {
    return estimates < 2
        ? Double.NaN
        : Math.sqrt(Math.max(0, squares - error * error / estimates) / (estimates - 1));
  }

  /** The share of intervals that hold the truth; NaN without any. */
  public double coverage() {
    return (double) covered / judged;
  }
}
