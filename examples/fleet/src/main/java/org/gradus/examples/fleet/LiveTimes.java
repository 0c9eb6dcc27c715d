package org.gradus.examples.fleet;

import java.time.Duration;
import java.util.Optional;

/**
 * The times of a live test: what has to be known of it before its session is needed.
 *
 * @param protocol the id and version of its protocol, for as long as it lasts
 * @param begun when its clock started, in milliseconds since 1970
 * @param asks when its decision may change by itself, in nanoseconds since then; {@link #NEVER}
 *     where it does not
 * @param closes when its record is handed over and its state deleted, in milliseconds since 1970
 */
public record LiveTimes(String protocol, long begun, long asks, long closes) {

  /** No such time. */
  static final long NEVER = Long.MAX_VALUE;

  LiveTimes asksAt(Optional<Duration> change) {
    return new LiveTimes(protocol, begun, change.map(Duration::toNanos).orElse(NEVER), closes);
  }

  LiveTimes closesAt(long time) {
    return new LiveTimes(protocol, begun, asks, time);
  }

  boolean asksBefore(Duration at) {
    return asks != NEVER && asking().compareTo(at) < 0;
  }

  /** The moment at which it asks, on the clock of the test. */
  Duration asking() {
    return Duration.ofNanos(asks);
  }

  /** The first whole millisecond at which to ask, since 1970. */
  long timer() {
    return asks == NEVER ? NEVER : begun + -Math.floorDiv(-asks, 1_000_000);
  }

  /** A moment of the test, in milliseconds since 1970. */
  long epoch(Duration at) {
    return begun + at.toMillis();
  }
}
