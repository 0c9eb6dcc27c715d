package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;

/**
 * Readings to take before the first stage.
 *
 * @param signals what is read
 * @param posture what the reading is for: a resting or an upright one
 * @param placed how the person is placed: {@code seated}
 * @param after how long the person has been so placed
 */
public record BaselineLine(List<String> signals, Posture posture, String placed, Duration after) {

  public BaselineLine {
    requireNonNull(after, "after");
    requireNonNull(placed, "placed");
    requireNonNull(posture, "posture");
    requireNonNull(signals, "signals");
    signals = List.copyOf(signals);
  }
}
