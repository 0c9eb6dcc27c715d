package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

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
  record Taken(Duration at, Reading reading) implements StreamReading {
    public Taken {
      requireNonNull(at, "at");
      requireNonNull(reading, "reading");
    }
  }

  /**
   * No reading.
   *
   * @param reason why, and what to do
   */
  record NotTaken(String reason) implements StreamReading {
    public NotTaken {
      requireNonNull(reason, "reason");
    }
  }
}
