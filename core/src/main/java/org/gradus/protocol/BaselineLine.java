package org.gradus.protocol;

import java.time.Duration;
import java.util.List;

/**
 * Readings to take before the first stage.
 *
 * @param signals what is read
 * @param posture how the person is placed
 * @param after how long the person has been so placed
 */
public record BaselineLine(List<String> signals, Posture posture, Duration after) {

  public BaselineLine {
    signals = List.copyOf(signals);
  }
}
