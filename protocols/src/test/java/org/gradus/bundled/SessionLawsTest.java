package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;

/** What holds in every standard walk beside the laws of the kit. */
class SessionLawsTest {

  private static final int LENGTH = 40;

  @Property(tries = 300, seed = "20261130")
  void measuringNeverTakesLongerThanIsAllowed(@ForAll Random random) {
    Play.of(
        random,
        LENGTH,
        new Play.Watcher() {
          @Override
          public void done(Session session, Step step, Decision decision) {
            if (session.phase() != Phase.STAGE
                || !(decision.verdict() instanceof Verdict.Measure measure)
                || decision.phase() != Phase.STAGE) {
              return;
            }
            Duration limit = limit(session);
            assertThat(measure.until().orElseThrow()).isLessThanOrEqualTo(limit);
            Duration then = limit.compareTo(step.at()) > 0 ? limit : step.at();
            assertThat(session.decide(then).verdict()).isNotInstanceOf(Verdict.Measure.class);
          }
        });
  }

  // The planned end of the stage, as the events moved it, and what is left of the wait.
  private static Duration limit(Session session) {
    Duration end = Duration.ZERO;
    Duration left = Duration.ZERO;
    for (Event event : session.events()) {
      Verdict verdict = verdict(event);
      if (verdict instanceof Verdict.Ready || verdict instanceof Verdict.Advance) {
        end = event.at().plus(Duration.ofMinutes(3));
        left = session.protocol().unmeasured().atMost();
      } else if (verdict instanceof Verdict.Hold hold) {
        left = event.at().compareTo(end) > 0 ? left.minus(event.at().minus(end)) : left;
        end = hold.until();
      }
    }
    return left.isNegative() ? end : end.plus(left);
  }

  private static Verdict verdict(Event event) {
    if (event instanceof Event.Followed followed) {
      return followed.verdict();
    } else if (event instanceof Event.Overridden overridden) {
      return overridden.verdict();
    }
    return new Verdict.End();
  }
}
