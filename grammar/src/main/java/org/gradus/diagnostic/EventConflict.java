package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;
import org.gradus.words.Message;

/**
 * An event was told with a number that another event has, or with one that leaves numbers out. It
 * has not happened. Read the events that the session has, and tell it with the next number if it
 * still holds.
 */
public final class EventConflict extends GradusException {

  private static final long serialVersionUID = 1L;

  /**
   * Refuses an event.
   *
   * @param number the number that it was told with
   * @param why what stands against it
   */
  public EventConflict(int number, Message why) {
    super(Code.G621, List.of(Integer.toString(number), why));
    requireNonNull(why, "why");
  }
}
