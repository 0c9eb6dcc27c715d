package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import org.gradus.session.Decision;

/**
 * Looks on while a script is played, and throws an {@link AssertionError} when it sees what must
 * not be. It may remember what it saw; every play has one of its own.
 */
public interface Watch {

  /** A step is about to be done. */
  default void before(LiveSession session, Step step) {}

  /** A step was done or refused. */
  default void after(Moment moment) {}

  /** The last step was done or refused. */
  default void end(LiveSession session) {}

  /**
   * Says that something must hold.
   *
   * @param what what was found instead, should it not hold
   * @throws AssertionError unless it holds
   */
  static void demand(boolean holds, Object what) {
    requireNonNull(what, "what");
    if (!holds) {
      throw new AssertionError(what);
    }
  }

  /**
   * Says that two things must be the same.
   *
   * @param what what they are
   * @throws AssertionError unless they are
   */
  static void same(String what, Object expected, Object found) {
    requireNonNull(found, "found");
    requireNonNull(what, "what");
    if (!expected.equals(found)) {
      throw new AssertionError(
          what + ": " + text(found) + "\n       instead of: " + text(expected));
    }
  }

  private static Object text(Object some) {
    return some instanceof Decision decision ? decision + " " + Texts.rest(decision) : some;
  }
}
