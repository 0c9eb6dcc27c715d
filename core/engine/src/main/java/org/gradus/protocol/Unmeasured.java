package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;

/**
 * What happens when a decision cannot be made because readings are missing.
 *
 * @param atMost how long at most it is waited for them in one stage
 * @param thenStop whether the test is stopped then, rather than finished
 */
public record Unmeasured(Duration atMost, boolean thenStop) {
  public Unmeasured {
    requireNonNull(atMost, "atMost");
  }
}
