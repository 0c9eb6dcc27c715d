package org.gradus.capacity;

import org.gradus.session.Outcome;

/**
 * Whether a person may be told how to train. After a stop that is for somebody to decide who knows
 * what it meant.
 */
public enum Clearance {
  /** No stop ended the test. */
  NOT_NEEDED,
  /** A stop ended the test, and nobody has said since that the person may exercise. */
  OUTSTANDING,
  /** A stop ended the test, and the person has been cleared for exercise since. */
  GIVEN;

  static Clearance of(Outcome outcome) {
    return outcome.needsClearance() ? outcome.clearedAfterStop() ? GIVEN : OUTSTANDING : NOT_NEEDED;
  }
}
