package org.gradus.trial;

import java.time.Duration;

/** How the heart rate is read in a trial. */
public sealed interface Counting {

  /** As the protocol says: counted for the stretch its schedule gives, else read off a device. */
  record AsScheduled() implements Counting {}

  /**
   * Counted.
   *
   * @param stretch for how long
   */
  record For(Duration stretch) implements Counting {}

  /** The true rate, to a hundredth of a beat and without noise: what no instrument shows. */
  record Exact() implements Counting {}
}
