package org.gradus.examples.workbench;

import java.time.Duration;
import java.util.function.LongSupplier;

/** The clock of a live test: real time, faster, or only the times that are typed. */
final class TestClock {

  private final double speed;
  private final LongSupplier nanoseconds;
  private final long start;
  private Duration ahead;

  /**
   * Starts the clock.
   *
   * @param speed how many times faster than real time it runs; 0: it stands still until a time is
   *     typed
   * @param from the time it shows now
   */
  TestClock(double speed, Duration from) {
    this(speed, from, System::nanoTime);
  }

  /** The same, with another source of real time. */
  TestClock(double speed, Duration from, LongSupplier nanoseconds) {
    this.speed = speed;
    this.nanoseconds = nanoseconds;
    this.start = nanoseconds.getAsLong();
    this.ahead = from;
  }

  /** The time of the test, in whole seconds. */
  Duration now() {
    return elapsed().plus(ahead);
  }

  /** Sets the clock, ahead or back; it runs on from there. */
  void set(Duration time) {
    ahead = time.minus(elapsed());
  }

  /** How much real time has passed since the clock was started, whatever its speed. */
  Duration real() {
    return Duration.ofNanos(nanoseconds.getAsLong() - start);
  }

  private Duration elapsed() {
    return Duration.ofSeconds((long) (real().toNanos() / 1e9 * speed));
  }
}
