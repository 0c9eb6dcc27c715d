package org.gradus.capacity;

import org.gradus.session.Outcome;

/**
 * Whether a person may be told how to train. After an alarming stop a person who knows what it
 * meant has to decide that; {@link Outcome#needsClearance} says when.
 */
public enum Clearance {
  /** No alarming stop applied when the test ended. */
  NOT_NEEDED,
  /** It is needed, and it was not told that the person may exercise. */
  OUTSTANDING,
  /** It was needed, and the person has been cleared for exercise since. */
  GIVEN;

  static Clearance of(Outcome outcome) {
    return outcome.needsClearance() ? outcome.clearedAfterStop() ? GIVEN : OUTSTANDING : NOT_NEEDED;
  }
}
