package org.gradus.internal;

import org.gradus.rule.plan.Frame;

/**
 * What was known at the moments of a test from which its result is worked out. Each call gives a
 * frame of its own, which the caller may change.
 */
public interface KeyMoments {

  /**
   * The moments of a test.
   *
   * @param outcome an {@code org.gradus.session.Outcome}; each of them is made by the session and
   *     knows its moments
   */
  static KeyMoments of(Object outcome) {
    return (KeyMoments) outcome;
  }

  /**
   * What was known at the end of a stage.
   *
   * @param place its place among the stages gone through, from 0
   */
  Frame atEndOf(int place);

  /** What was known at the end of the exercise, by the latest readings. */
  Frame atFinish();

  /** What is known of recovery at the last event, by its latest readings. */
  Frame inRecovery();
}
