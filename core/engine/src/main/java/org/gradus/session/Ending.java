package org.gradus.session;

/** How a test ended. */
public enum Ending {
  /** The person recovered. */
  RECOVERED,
  /** The person had not recovered when the limit was reached. */
  NOT_RECOVERED,
  /** A stop during recovery. */
  EMERGENCY,
  /** The person was not tested. */
  DEFERRED,
  /** The tester broke the test off. */
  ABANDONED,
  /** The exercise ended and the protocol has no recovery. */
  DONE
}
