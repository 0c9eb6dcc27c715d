package org.gradus.examples.fleet;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Supplier;
import org.gradus.session.Session;

/**
 * The sessions that were used last. One that is not here is made again from its record, with the
 * same answers, so how many are kept decides about memory and time and about nothing else.
 */
final class RecentSessions {

  private final Map<String, Session> sessions;

  RecentSessions(int most) {
    sessions =
        new LinkedHashMap<>(16, 0.75f, true) {
          private static final long serialVersionUID = 1L;

          @Override
          protected boolean removeEldestEntry(Map.Entry<String, Session> eldest) {
            return size() > most;
          }
        };
  }

  /** The session of a test, made again where it is not here. */
  Session of(String test, Supplier<Session> again) {
    Session session = sessions.get(test);
    if (session == null) {
      session = again.get();
      sessions.put(test, session);
    }
    return session;
  }

  void forget(String test) {
    sessions.remove(test);
  }
}
