package org.gradus.knowledge;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * The equations a library holds, by their ids.
 *
 * @param costs oxygen costs of loads
 * @param maxHeartRates predictions of the maximal heart rate
 */
public record Equations(Map<String, CostEquation> costs, Map<String, MaxHeartRate> maxHeartRates) {

  /** No equations. */
  public static final Equations NONE = new Equations(Map.of(), Map.of());

  public Equations {
    costs = Map.copyOf(costs);
    maxHeartRates = Map.copyOf(maxHeartRates);
  }

  /** These and further ones. */
  public Equations and(Equations further) {
    Map<String, CostEquation> allCosts = new LinkedHashMap<>(costs);
    allCosts.putAll(further.costs);
    Map<String, MaxHeartRate> allRates = new LinkedHashMap<>(maxHeartRates);
    allRates.putAll(further.maxHeartRates);
    return new Equations(allCosts, allRates);
  }
}
