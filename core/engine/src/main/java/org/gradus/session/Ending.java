package org.gradus.session;

import org.gradus.words.Message;

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
  DONE;

  /** How it ended in a word or two, to be said in any language. */
  public Message message() {
    return Message.of(VerdictMessages.ending(this));
  }
}
