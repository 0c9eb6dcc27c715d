package org.gradus.testkit;

import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Verdict;

/** A followed stop is the end of the exercise. */
final class AfterStop implements Watch {

  private boolean stopped;

  @Override
  public void after(Moment moment) {
    boolean stop = moment.told().filter(AfterStop::isStop).isPresent();
    stopped |= stop && moment.phase() == Phase.STAGE;
    if (stopped) {
      LiveSession session = moment.session();
      Phase phase = session.phase();
      Watch.demand(phase == Phase.RECOVERY || phase == Phase.ENDED, "phase " + phase);
      var decision = session.decide(session.now());
      Watch.demand(!goesOn(decision.verdict()), decision);
    }
  }

  private static boolean isStop(Event event) {
    return (event instanceof Event.Followed followed && followed.verdict() instanceof Verdict.Stop)
        || (event instanceof Event.Overridden other && other.verdict() instanceof Verdict.Stop);
  }

  private static boolean goesOn(Verdict verdict) {
    return verdict instanceof Verdict.Ready
        || verdict instanceof Verdict.Advance
        || verdict instanceof Verdict.Hold
        || verdict instanceof Verdict.Change
        || verdict instanceof Verdict.Finish;
  }
}
