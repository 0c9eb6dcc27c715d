package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

/**
 * What a rule suspects when an answer is not plausible.
 *
 * @param ingredient what is suspicious: {@code "heart rate"}
 * @param look where to look for the fault
 */
public record Suspicion(String ingredient, Look look) {
  public Suspicion {
    requireNonNull(ingredient, "ingredient");
    requireNonNull(look, "look");
  }

  /** Where a fault may lie. */
  public enum Look {
    /** In how it was measured. */
    PROCEDURE,
    /** In what was written down or worked out. */
    SUM
  }
}
