package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** What is read in stages, in order of precedence. Immutable. */
public final class Schedule {

  /** Nothing is read. */
  public static final Schedule NONE = new Schedule(List.of());

  private final List<MeasureLine> lines;
  // The line of each signal; it is asked for at every event.
  private final Map<String, Optional<MeasureLine>> bySignal = new HashMap<>();

  /**
   * A schedule.
   *
   * @param lines the lines, in order of precedence
   */
  public Schedule(List<MeasureLine> lines) {
    requireNonNull(lines, "lines");
    this.lines = List.copyOf(lines);
    for (MeasureLine line : lines) {
      line.signals().forEach(signal -> bySignal.putIfAbsent(signal, Optional.of(line)));
    }
  }

  /** What of it is read in a stage. */
  Schedule in(String stage) {
    return lines.stream().allMatch(line -> line.isReadIn(stage))
        ? this
        : new Schedule(lines.stream().filter(line -> line.isReadIn(stage)).toList());
  }

  /** The lines, in order of precedence. */
  public List<MeasureLine> lines() {
    return lines;
  }

  /** The first line that reads a signal. */
  public Optional<MeasureLine> lineOf(String signal) {
    requireNonNull(signal, "signal");
    return bySignal.getOrDefault(signal, Optional.empty());
  }
}
