package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import org.gradus.knowledge.Citation;

/**
 * A rating scale.
 *
 * @param name the name files use: {@code rpe_6_20}
 * @param of the signal whose readings are given on it
 * @param low the lowest rating
 * @param high the highest rating
 * @param step the step between two ratings
 * @param source who publishes it
 */
public record Scale(String name, String of, double low, double high, double step, Citation source) {
  public Scale {
    requireNonNull(name, "name");
    requireNonNull(of, "of");
    requireNonNull(source, "source");
  }

  /** Whether a rating stands on the scale. */
  public boolean has(double rating) {
    double steps = (rating - low) / step;
    return rating >= low && rating <= high && Math.abs(steps - Math.rint(steps)) < 1e-9;
  }
}
