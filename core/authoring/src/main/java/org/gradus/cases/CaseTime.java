package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;

/**
 * A time of a case.
 *
 * @param from the stage, or {@code recovery}, from whose beginning it is counted; empty for the
 *     start of the session
 * @param after how long after
 */
public record CaseTime(Optional<String> from, Duration after) {
  public CaseTime {
    requireNonNull(after, "after");
    requireNonNull(from, "from");
  }
}
