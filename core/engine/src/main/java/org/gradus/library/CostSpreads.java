package org.gradus.library;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.CostEquation;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * Gives each oxygen cost for which no spread is stated the widest of its kind: an equation without
 * one would count as exact and make narrower intervals than one whose error is known.
 */
final class CostSpreads {

  private CostSpreads() {}

  /** Fills in what the files leave open; what they state stays. */
  static void fill(Map<String, CostEquation> costs) {
    List<CostEquation> stated =
        costs.values().stream().filter(cost -> inPercent(cost).isPresent()).toList();
    costs.replaceAll(
        (id, cost) ->
            cost.spread().isPresent()
                ? cost
                : stated.stream()
                    .filter(other -> sameLoads(other, cost))
                    .max(Comparator.comparingDouble(other -> inPercent(other).orElse(0.0)))
                    .map(cost::withSpreadOf)
                    .orElse(cost));
  }

  // Only shares of an uptake can be compared without a person and a load.
  private static Optional<Double> inPercent(CostEquation cost) {
    return cost.spread().filter(sd -> sd.kind() == Kind.NUMBER).map(Quantity::base);
  }

  private static boolean sameLoads(CostEquation one, CostEquation other) {
    return new HashSet<>(one.loads()).equals(new HashSet<>(other.loads()));
  }
}
