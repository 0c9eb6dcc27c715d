package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

import org.gradus.unit.Quantity;

/**
 * How much the answers of two tests of an unchanged person differ.
 *
 * @param id its name: {@code submaximal_cycle}
 * @param purpose of which tests: {@code submaximal} or {@code maximal}
 * @param sd the standard deviation of one answer within a person, as a share of it in % or as an
 *     uptake
 * @param source its citation
 */
public record Repeat(String id, String purpose, Quantity sd, Citation source) {
  public Repeat {
    requireNonNull(id, "id");
    requireNonNull(purpose, "purpose");
    requireNonNull(sd, "sd");
    requireNonNull(source, "source");
  }
}
