package org.gradus.testkit;

import java.util.List;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;

/** A record matches its files. */
final class Verified implements Watch {

  private final Library library;

  Verified(Library library) {
    this.library = library;
  }

  @Override
  public void end(LiveSession session) {
    TestRecord record = TestRecord.parse("script", session.record());
    Watch.same("what differs", List.of(), record.verify(library));
  }
}
