package org.gradus.examples.fleet;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Session;

/**
 * Events that arrive after later ones of the same test.
 *
 * <p>The engine takes events in the order in which they are told, and knows two times of a reading:
 * when it was taken and when it was told. So a reading that arrives late, and what was done in a
 * stage, is told now and counts for the time at which it was taken. A sign that was reported counts
 * from now on, since it may be a reason to stop. Whatever else comes out of order would mean
 * something else now (a verdict that was followed, a sign that was withdrawn, a grade that a newer
 * one replaced) and stays refused (G503).
 */
final class LateEvents {

  private LateEvents() {}

  /** Tells an event, at the time of the last one where it arrives after that. */
  static Decision tell(Session session, Event event) {
    try {
      return session.tell(event);
    } catch (ReadingRefused refused) {
      List<Event> told = session.events();
      if (refused.code() != Code.G503 || told.isEmpty()) {
        throw refused;
      }
      return session.tell(late(event, told.get(told.size() - 1).at()).orElseThrow(() -> refused));
    }
  }

  private static Optional<Event> late(Event event, Duration now) {
    if (event instanceof Event.Read read) {
      return Optional.of(new Event.Read(read.readings(), read.taken(), now));
    } else if (event instanceof Event.Done done) {
      return Optional.of(new Event.Done(done.reached(), now));
    } else if (event instanceof Event.Reported sign && sign.grade().isEmpty()) {
      return Optional.of(new Event.Reported(sign.sign(), OptionalInt.empty(), now));
    }
    return Optional.empty();
  }
}
