package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * How far the model of a method may be off although everything it rests on is right: a straight
 * line of heart rate and uptake may bend before the maximum.
 *
 * @param id its name
 * @param sd its standard deviation: an uptake per kilogram, or a share of the answer
 * @param source where the figure comes from
 */
public record ModelError(String id, Quantity sd, Citation source) {
  public ModelError {
    requireNonNull(id, "id");
    requireNonNull(sd, "sd");
    requireNonNull(source, "source");
  }

  /** The standard deviation at an answer, both in the base unit of an uptake per kilogram. */
  public double at(double vo2max) {
    return sd.kind() == Kind.NUMBER ? sd.base() * vo2max : sd.base();
  }

  /** Its name in words. */
  public String words() {
    return id.replace('_', ' ');
  }
}
