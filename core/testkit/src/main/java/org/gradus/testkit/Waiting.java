package org.gradus.testkit;

import java.time.Duration;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Verdict;

/** No answer waits for ever. */
final class Waiting implements Watch {

  private final TestScript test;

  Waiting(TestScript test) {
    this.test = test;
  }

  @Override
  public void before(LiveSession session, Step step) {
    Luck luck = test.luck(step.at());
    if (luck.chance(0.35)) {
      Duration later = luck.chance(0.6) ? Duration.ZERO : Duration.ofSeconds(luck.below(300));
      look(session, session.decide(session.now().plus(later)));
    }
  }

  private static void look(LiveSession session, Decision decision) {
    if (decision.verdict() instanceof Verdict.Continue goOn) {
      Watch.demand(goOn.until().compareTo(decision.at()) > 0, decision);
    } else {
      lookAtWait(session, decision);
    }
  }

  // Another rule may wait longer for the same reading, but none waits again once its time is over.
  private static void lookAtWait(LiveSession session, Decision first) {
    Set<Optional<String>> waited = new HashSet<>();
    Decision now = first;
    while (now.verdict() instanceof Verdict.Measure measure && measure.until().isPresent()) {
      boolean isFirst = waited.add(now.because().map(Because::rule));
      Watch.demand(isFirst, first + ", and then " + now);
      Decision then = session.decide(measure.until().get());
      if (!waitsOn(measure, then)) {
        return;
      }
      now = then;
    }
  }

  private static boolean waitsOn(Verdict.Measure measure, Decision then) {
    return then.verdict() instanceof Verdict.Measure still && still.gaps().equals(measure.gaps());
  }
}
