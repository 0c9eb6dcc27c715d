package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * Whether the readings' own resolution could flip a decision.
 *
 * @param couldFlip the comparisons that could come out the other way; empty for a firm decision
 */
public record Firmness(List<String> couldFlip) {

  /** Nothing could flip it. */
  public static final Firmness FIRM = new Firmness(List.of());

  public Firmness {
    requireNonNull(couldFlip, "couldFlip");
    couldFlip = List.copyOf(couldFlip);
  }

  /** What could flip a decision that rests on several things. */
  @SafeVarargs
  static Firmness of(Set<String>... couldFlip) {
    Set<String> all = new LinkedHashSet<>();
    for (Set<String> some : couldFlip) {
      all.addAll(some);
    }
    return all.isEmpty() ? FIRM : new Firmness(List.copyOf(all));
  }

  /** Whether nothing could flip it. */
  public boolean isFirm() {
    return couldFlip.isEmpty();
  }
}
