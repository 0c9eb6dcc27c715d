package org.gradus.protocol;

import java.util.Set;

/**
 * What can change the answer of a rule while a stage lasts. Everything else it asks for stays as it
 * is until the stage is left or another load is set.
 *
 * @param time whether time alone can: it asks for a clock, a load that may change, or readings by
 *     their due times
 * @param told the signals and signs it asks for
 */
public record Influences(boolean time, Set<String> told) {

  public Influences {
    told = Set.copyOf(told);
  }
}
