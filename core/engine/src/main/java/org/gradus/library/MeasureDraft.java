package org.gradus.library;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.MeasureLine;

/**
 * A line of a schedule with the places of the names in it.
 *
 * @param line the line, but for the times that settings give
 * @param in the stages in which it is read, as they were written; none: all
 * @param bySetting the settings that give its times, by the key under which they stand
 */
record MeasureDraft(
    MeasureLine line,
    List<Scalar> read,
    Optional<Scalar> scale,
    Optional<Scalar> named,
    List<Scalar> in,
    Map<String, Scalar> bySetting) {

  /** Finds the time that a setting gives. */
  interface Times {
    Optional<Duration> of(Scalar setting);
  }

  /** The line with the times that its settings give. */
  MeasureLine with(Times times) {
    Duration within = time("within", times).orElse(line.within());
    boolean lateAsWithin = bySetting.containsKey("within") && line.late().equals(line.within());
    return new MeasureLine(
        line.signals(),
        line.timing(),
        time("over", times).orElse(line.over()),
        time("takes", times).orElse(line.takes()),
        within,
        time("late", times).orElse(lateAsWithin ? within : line.late()),
        time("valid_for", times).or(line::validFor),
        line.ifMissing(),
        line.scale(),
        line.named(),
        line.posture(),
        line.in());
  }

  private Optional<Duration> time(String key, Times times) {
    return Optional.ofNullable(bySetting.get(key)).flatMap(times::of);
  }
}
