package org.gradus.session;

/** Where a test stands. */
public enum Phase {
  /** Before the first stage. */
  BEFORE,
  /** In a stage. */
  STAGE,
  /** After the exercise. */
  RECOVERY,
  /** Over. */
  ENDED
}
