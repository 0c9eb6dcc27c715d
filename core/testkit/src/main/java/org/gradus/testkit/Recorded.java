package org.gradus.testkit;

/** A record is the whole test. */
final class Recorded implements Watch {

  private final TestScript test;

  Recorded(TestScript test) {
    this.test = test;
  }

  @Override
  public void end(LiveSession session) {
    String record = session.record();
    LiveSession resumed = session.resume(record);
    Watch.same("the person", test.person(), resumed.session().outcome().person());
    Watch.same("the events", session.events(), resumed.events());
    Watch.same("the phase", session.phase(), resumed.phase());
    Watch.same("the decision", session.decide(session.now()), resumed.decide(session.now()));
    Watch.same("the record", record, resumed.record());
  }
}
