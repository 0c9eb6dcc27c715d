package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.knowledge.Band.Measure;

/**
 * How a share of what a person can do becomes a heart rate or an uptake.
 *
 * @param id its name: {@code heart_rate_reserve}
 * @param of the measure of the bands whose shares it takes
 * @param formula the formula, over the name {@code share} and what is known of the person
 * @param onlyWhen for whom it holds, if not for everybody
 * @param source its citation
 */
public record IntensityMethod(
    String id, Measure of, Reckoning formula, Optional<Proviso> onlyWhen, Citation source) {
  public IntensityMethod {
    requireNonNull(formula, "formula");
    requireNonNull(id, "id");
    requireNonNull(of, "of");
    requireNonNull(onlyWhen, "onlyWhen");
    requireNonNull(source, "source");
  }
}
