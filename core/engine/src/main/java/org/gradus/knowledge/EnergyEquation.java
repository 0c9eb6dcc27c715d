package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

/**
 * A convention by which an uptake becomes an energy.
 *
 * @param id its name
 * @param rate the energy spent per minute, over the names {@code uptake} and {@code mass}
 * @param source its citation, with what speaks for or against it
 */
public record EnergyEquation(String id, Reckoning rate, Citation source) {
  public EnergyEquation {
    requireNonNull(id, "id");
    requireNonNull(rate, "rate");
    requireNonNull(source, "source");
  }
}
