package org.gradus.testkit;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.history.TestRecord;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Phase;
import org.gradus.session.Session;

/**
 * A session while a script is played, as laws look at it. Laws ask and try things on copies; what
 * is done to the session itself comes from the script.
 */
public class LiveSession {

  private final Session session;

  LiveSession(Session session) {
    this.session = session;
  }

  /** The session itself, for whatever else is to be looked at. */
  public final Session session() {
    return session;
  }

  /** Where the test stands. */
  public Phase phase() {
    return session.phase();
  }

  /** Everything that was told and done, in order. */
  public List<Event> events() {
    return session.events();
  }

  /** When something was told or done last; zero before anything was. */
  public final Duration now() {
    List<Event> events = events();
    return events.isEmpty() ? Duration.ZERO : events.get(events.size() - 1).at();
  }

  /**
   * What to do at a moment.
   *
   * @throws org.gradus.diagnostic.ReadingRefused when the moment lies before the last event
   */
  public Decision decide(Duration at) {
    return session.decide(at);
  }

  /**
   * Does something.
   *
   * @throws org.gradus.diagnostic.GradusException when the session refuses it
   */
  public Decision apply(Step step) {
    return step.apply(session);
  }

  /** A copy to try things on. */
  public LiveSession fork() {
    return new LiveSession(session.fork());
  }

  /** The record of the test so far, as it is written. */
  public String record() {
    return TestRecord.of(session, Optional.empty()).text();
  }

  /** The test taken up again from a record. */
  public LiveSession resume(String record) {
    TestRecord read = TestRecord.parse("script", record);
    List<Event> events = read.entries().stream().map(TestRecord.Entry::event).toList();
    return new LiveSession(
        Session.resume(session.protocol(), read.title().person(), events, Ledger.NONE));
  }
}
