package org.gradus.protocol;

import java.util.List;

/**
 * How a result is worked out.
 *
 * @param costs oxygen costs, the first that applies
 * @param estimates estimates in order of preference
 */
public record Assessment(List<CostLine> costs, List<EstimateLine> estimates) {

  public Assessment {
    costs = List.copyOf(costs);
    estimates = List.copyOf(estimates);
  }
}
