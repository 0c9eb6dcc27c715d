package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Quantity;

/**
 * What must have come of a case in the end. What is empty is not looked at.
 *
 * @param phase where the test stands
 * @param ending how it ended
 * @param headline the id of the estimate that counts most
 * @param estimates what must come of estimates, by id
 * @param results what must come of other results, by id
 * @param errors the codes of everything that is wrong with the changed file
 */
public record Expected(
    Optional<String> phase,
    Optional<String> ending,
    Optional<String> headline,
    Map<String, Figure> estimates,
    Map<String, Figure> results,
    Optional<List<String>> errors) {

  /** Nothing is expected. */
  static final Expected NOTHING =
      new Expected(
          Optional.empty(),
          Optional.empty(),
          Optional.empty(),
          Map.of(),
          Map.of(),
          Optional.empty());

  /** Whether nothing but errors is expected. */
  boolean isOfErrorsOnly() {
    return equals(
        new Expected(
            Optional.empty(), Optional.empty(), Optional.empty(), Map.of(), Map.of(), errors));
  }

  public Expected {
    requireNonNull(ending, "ending");
    requireNonNull(errors, "errors");
    requireNonNull(estimates, "estimates");
    requireNonNull(headline, "headline");
    requireNonNull(phase, "phase");
    requireNonNull(results, "results");
    estimates = Map.copyOf(estimates);
    results = Map.copyOf(results);
  }

  /**
   * What must come of an estimate or of another result.
   *
   * @param value its value; empty: it must not be available
   * @param within how far off it may be, in the unit of the value
   * @param source where the expected value comes from
   */
  public record Figure(Optional<Quantity> value, double within, String source) {
    public Figure {
      requireNonNull(source, "source");
      requireNonNull(value, "value");
    }
  }
}
