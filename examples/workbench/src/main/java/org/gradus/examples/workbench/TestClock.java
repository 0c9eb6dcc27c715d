package org.gradus.examples.workbench;

import java.time.Duration;

/** The time of the test: real, faster, or as it is typed. */
final class TestClock {

  private final double speed;
  private final long start = System.nanoTime();
  private Duration ahead;

  /**
   * Begins to run.
   *
   * @param speed how many times faster than real time
   * @param from where it stands now
   */
  TestClock(double speed, Duration from) {
    this.speed = speed;
    this.ahead = from;
  }

  Duration now() {
    long seconds = (long) ((System.nanoTime() - start) / 1e9 * speed);
    return Duration.ofSeconds(seconds).plus(ahead);
  }

  /** Jumps ahead; a time that has passed already is where the clock stands. */
  Duration jump(Duration to) {
    Duration now = now();
    if (to.compareTo(now) > 0) {
      ahead = ahead.plus(to.minus(now));
    }
    return now();
  }
}
