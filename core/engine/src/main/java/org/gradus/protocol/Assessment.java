package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.knowledge.LineRise;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.knowledge.Repeat;
import org.gradus.knowledge.Spread;
import org.gradus.rule.Formula;

/**
 * How a result is worked out.
 *
 * @param costs oxygen costs, the first that applies
 * @param uptake the oxygen cost that applies, where there is a list of costs
 * @param maxHeartRate the maximal heart rate that applies, where the protocol has one
 * @param estimates estimates of the aerobic capacity in order of preference
 * @param results other results in the order in which they are shown
 * @param headline the estimate or result that is shown first, where the file names one
 * @param spreads how much readings differ when nothing about the person or the load does
 * @param repeats how much the answers of two tests of an unchanged person differ
 * @param plausible the capacities that can be, where a file says so
 * @param lineRise when a line through stages counts as rising, where a file says so; otherwise
 *     every line with a slope above zero does
 * @param replaced ids that equations of this protocol had in earlier files, each with the id that
 *     replaces it
 */
public record Assessment(
    List<CostLine> costs,
    Optional<Formula> uptake,
    Optional<Formula> maxHeartRate,
    List<EstimateLine> estimates,
    List<EstimateLine> results,
    Optional<String> headline,
    List<Spread> spreads,
    List<Repeat> repeats,
    Optional<PlausibleRange> plausible,
    Optional<LineRise> lineRise,
    Map<String, String> replaced) {

  /** Every line that works out something: estimates of the capacity, then other results. */
  public List<EstimateLine> lines() {
    return Stream.concat(estimates.stream(), results.stream()).toList();
  }

  public Assessment {
    requireNonNull(costs, "costs");
    requireNonNull(estimates, "estimates");
    requireNonNull(headline, "headline");
    requireNonNull(lineRise, "lineRise");
    requireNonNull(maxHeartRate, "maxHeartRate");
    requireNonNull(plausible, "plausible");
    requireNonNull(repeats, "repeats");
    requireNonNull(replaced, "replaced");
    requireNonNull(results, "results");
    requireNonNull(spreads, "spreads");
    requireNonNull(uptake, "uptake");
    costs = List.copyOf(costs);
    estimates = List.copyOf(estimates);
    results = List.copyOf(results);
    spreads = List.copyOf(spreads);
    repeats = List.copyOf(repeats);
    replaced = Collections.unmodifiableMap(new LinkedHashMap<>(replaced));
  }
}
