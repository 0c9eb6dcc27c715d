package org.gradus.session;

import org.gradus.diagnostic.JournalFailed;

/** Keeps the events of a session, each before it counts. */
@FunctionalInterface
public interface Ledger {

  /** Keeps nothing. */
  Ledger NONE = (number, event, answer) -> {};

  /**
   * Keeps an event. When this returns the event is safe; when it throws the event has not happened.
   *
   * @param number its number; the first event of a session has number 1
   * @param event what was told
   * @param answer the decision of its moment
   * @throws JournalFailed when it cannot be kept
   */
  void keep(int number, Event event, Decision answer);
}
