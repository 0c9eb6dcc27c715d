package org.gradus.protocol;

import java.util.List;
import java.util.Optional;

/**
 * What is read in every stage, in order of precedence.
 *
 * @param lines the lines
 */
public record Schedule(List<MeasureLine> lines) {

  /** Nothing is read. */
  public static final Schedule NONE = new Schedule(List.of());

  public Schedule {
    lines = List.copyOf(lines);
  }

  /** The first line that reads a signal. */
  public Optional<MeasureLine> lineOf(String signal) {
    for (MeasureLine line : lines) {
      if (line.reads(signal)) {
        return Optional.of(line);
      }
    }
    return Optional.empty();
  }
}
