package org.gradus.session;

import java.time.Duration;

/**
 * A rule that holds on one reading and waits for a second.
 *
 * @param until when it counts without a second reading
 * @param agreed whether a second reading has agreed
 */
record Confirming(Duration until, boolean agreed) {

  /** Whether it counts at a time. */
  boolean counts(Duration time) {
    return agreed || time.compareTo(until) >= 0;
  }
}
