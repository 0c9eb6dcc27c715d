package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;

/**
 * A stage of a test that was done.
 *
 * @param id the stage
 * @param start when it began, since the start of the session
 * @param lasted how long it lasted
 * @param loads what was set
 * @param warmUp whether it was a warm-up
 * @param pause whether it was a pause, without a load
 * @param completed whether it was gone through to its end
 * @param place its place among the stages gone through, from 0
 */
public record StageResult(
    String id,
    Duration start,
    Duration lasted,
    List<Loading> loads,
    boolean warmUp,
    boolean pause,
    boolean completed,
    int place) {

  public StageResult {
    requireNonNull(id, "id");
    requireNonNull(lasted, "lasted");
    requireNonNull(loads, "loads");
    requireNonNull(start, "start");
    loads = List.copyOf(loads);
  }

  /** Whether it counts for numbers of stages and for estimates: no warm-up and no pause does. */
  public boolean isCounted() {
    return !warmUp && !pause;
  }
}
