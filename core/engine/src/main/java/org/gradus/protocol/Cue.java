package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * Something the tester is reminded to say or to look for.
 *
 * @param say the words, neutral and open
 * @param timing when in each stage
 * @param in the ids of the stages in which it is due; none: all of them
 */
public record Cue(String say, Timing timing, List<String> in) {

  public Cue {
    requireNonNull(in, "in");
    requireNonNull(say, "say");
    requireNonNull(timing, "timing");
    in = List.copyOf(in);
  }

  /** Whether it is due in a stage. */
  public boolean isDueIn(String stage) {
    requireNonNull(stage, "stage");
    return in.isEmpty() || in.contains(stage);
  }
}
