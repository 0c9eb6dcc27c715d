package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * A person of a case, as it was written: facts, answers and readings before the test.
 *
 * @param facts attributes and answers, by name
 * @param resting readings at rest, by signal
 * @param upright readings standing on the ergometer, by signal
 */
public record Participant(
    Map<String, String> facts, Map<String, String> resting, Map<String, String> upright) {

  /** Nobody is said anything about. */
  static final Participant NOBODY = new Participant(Map.of(), Map.of(), Map.of());

  public Participant {
    requireNonNull(facts, "facts");
    requireNonNull(resting, "resting");
    requireNonNull(upright, "upright");
    facts = Map.copyOf(facts);
    resting = Map.copyOf(resting);
    upright = Map.copyOf(upright);
  }

  /** This person with other facts and readings where those of the other are given. */
  Participant with(Participant other) {
    return new Participant(
        joined(facts, other.facts), joined(resting, other.resting), joined(upright, other.upright));
  }

  private static Map<String, String> joined(Map<String, String> some, Map<String, String> others) {
    Map<String, String> all = new LinkedHashMap<>(some);
    all.putAll(others);
    return all;
  }
}
