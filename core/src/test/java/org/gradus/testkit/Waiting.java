package org.gradus.testkit;

import java.time.Duration;
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

  private static boolean waitsOn(Verdict.Measure measure, Decision then) {
    return then.verdict() instanceof Verdict.Measure still && still.gaps().equals(measure.gaps());
  }

  private static void look(LiveSession session, Decision decision) {
    if (decision.verdict() instanceof Verdict.Continue goOn) {
      Watch.demand(goOn.until().compareTo(decision.at()) > 0, decision);
    } else if (decision.verdict() instanceof Verdict.Measure measure) {
      measure
          .until()
          .map(session::decide)
          .ifPresent(
              then -> Watch.demand(!waitsOn(measure, then), decision + ", and then " + then));
    }
  }
}
