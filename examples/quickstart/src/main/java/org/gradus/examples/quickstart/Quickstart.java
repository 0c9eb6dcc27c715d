package org.gradus.examples.quickstart;

import java.nio.file.Path;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.Printable;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/**
 * Plays a recorded test. Give the path of the file; the tester of the recording follows every
 * recommendation as it is given.
 */
public final class Quickstart {

  private Quickstart() {}

  /** Plays the file named by the first argument. */
  public static void main(String[] arguments) {
    Path file = Path.of(arguments.length > 0 ? arguments[0] : "recorded-test.yaml");
    // What a file brings is shown as text: a terminal would obey an escape sequence.
    System.out.print(Printable.text(play(RecordedTest.read(file))));
  }

  static String play(RecordedTest test) {
    Protocol protocol = Bundled.library().protocol(test.protocol());
    Session session = Session.open(protocol, test.person());
    Account account = new Account(protocol);
    account.opening();
    for (RecordedTest.Moment moment : test.moments()) {
      Decision decision = session.record(moment.at(), moment.readings());
      account.moment(session, moment, decision);
      if (moment.isLastOfItsTime() && changesSomething(decision.verdict())) {
        session.follow(decision);
      }
    }
    return account.text() + ShowResult.of(Capacity.of(session.outcome()));
  }

  private static boolean changesSomething(Verdict verdict) {
    return !(verdict instanceof Verdict.Continue) && !(verdict instanceof Verdict.Measure);
  }
}
