package org.gradus.exchange.device;

import java.time.Duration;
import org.gradus.session.Reading;

/** What a stream gives for a window. */
public sealed interface StreamReading {

  /**
   * A reading.
   *
   * @param at the time it counts for, since the start of the session
   * @param reading the heart rate
   */
  record Taken(Duration at, Reading reading) implements StreamReading {}

  /**
   * No reading.
   *
   * @param reason why, and what to do
   */
  record NotTaken(String reason) implements StreamReading {}
}
