package org.gradus.session;

import java.util.List;

/**
 * Whether the readings' own resolution could flip a decision.
 *
 * @param couldFlip the comparisons that could come out the other way; empty for a firm decision
 */
public record Firmness(List<String> couldFlip) {

  /** Nothing could flip it. */
  public static final Firmness FIRM = new Firmness(List.of());

  public Firmness {
    couldFlip = List.copyOf(couldFlip);
  }

  /** Whether nothing could flip it. */
  public boolean isFirm() {
    return couldFlip.isEmpty();
  }
}
