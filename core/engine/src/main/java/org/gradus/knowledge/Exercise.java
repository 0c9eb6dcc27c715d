package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/**
 * A way to exercise for which a load can be worked out.
 *
 * @param id its name: {@code level_walk}
 * @param title what to call it
 * @param equation the id of the equation of its oxygen cost
 * @param cost the equation
 * @param solved the load that is looked for
 * @param between where it is looked for
 * @param set the loads that are given
 * @param range where the authors of the equation say it holds, if they do
 * @param source the citation of the equation
 */
public record Exercise(
    String id,
    String title,
    String equation,
    Reckoning cost,
    String solved,
    QuantityRange between,
    Map<String, Quantity> set,
    Optional<Proviso> range,
    Citation source) {

  public Exercise {
    requireNonNull(between, "between");
    requireNonNull(cost, "cost");
    requireNonNull(equation, "equation");
    requireNonNull(id, "id");
    requireNonNull(range, "range");
    requireNonNull(set, "set");
    requireNonNull(solved, "solved");
    requireNonNull(source, "source");
    requireNonNull(title, "title");
    set = Map.copyOf(set);
  }
}
