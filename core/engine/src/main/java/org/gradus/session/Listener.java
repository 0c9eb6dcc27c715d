package org.gradus.session;

/** Is told of the events of a session once they count; see {@link Session#listen}. */
@FunctionalInterface
public interface Listener {

  /**
   * An event has happened.
   *
   * @param number its number; the first event of a session has number 1
   * @param event what was told or done
   * @param answer the decision of its moment
   */
  void happened(int number, Event event, Decision answer);
}
