package org.gradus.capacity;

import java.util.HashMap;
import java.util.Map;
import org.gradus.internal.KeyMoments;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;

/** What was known at the end of each stage, put together once. Whoever changes one copies it. */
final class StageFrames {

  private final KeyMoments moments;
  private final Map<Integer, Frame> frames = new HashMap<>();

  StageFrames(Outcome outcome) {
    this.moments = KeyMoments.of(outcome);
  }

  Frame of(StageResult stage) {
    return frames.computeIfAbsent(stage.place(), moments::atEndOf);
  }
}
