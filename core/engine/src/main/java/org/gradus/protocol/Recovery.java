package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;

/**
 * What follows the exercise.
 *
 * @param stages in order; the last lasts until recovery ends
 * @param schedule what is read, timed from the start of recovery
 * @param atMost after this the person counts as not recovered
 */
public record Recovery(List<Stage> stages, Schedule schedule, Duration atMost) {

  public Recovery {
    requireNonNull(atMost, "atMost");
    requireNonNull(schedule, "schedule");
    requireNonNull(stages, "stages");
    stages = List.copyOf(stages);
  }

  /**
   * The first stage without load, where recovery begins after a stop with rest; else the last one.
   */
  public Stage rest() {
    return stages.stream()
        .filter(stage -> stage.loads().isEmpty())
        .findFirst()
        .orElse(stages.get(stages.size() - 1));
  }
}
