package org.gradus.testkit;

import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Verdict;

/** Each phase has its verdicts. */
final class Phases implements Watch {

  @Override
  public void after(Moment moment) {
    moment.answer().ifPresent(answer -> look(moment.phase(), answer));
  }

  @Override
  public void end(LiveSession session) {
    look(session.phase(), session.decide(session.now()));
  }

  private static void look(Phase phase, Decision decision) {
    Watch.same("the phase", phase, decision.phase());
    Verdict verdict = decision.verdict();
    Watch.demand(belongs(phase, verdict), decision + " in phase " + phase);
    boolean offers = !decision.offers().isEmpty();
    Watch.demand(!(offers && verdict instanceof Verdict.Stop), decision + " with an offer");
  }

  private static boolean belongs(Phase phase, Verdict verdict) {
    boolean waits = verdict instanceof Verdict.Continue || verdict instanceof Verdict.Measure;
    boolean stops = verdict instanceof Verdict.Stop;
    return switch (phase) {
      case BEFORE ->
          verdict instanceof Verdict.Ready
              || verdict instanceof Verdict.Defer
              || verdict instanceof Verdict.Measure;
      case STAGE ->
          waits
              || stops
              || verdict instanceof Verdict.Advance
              || verdict instanceof Verdict.Hold
              || verdict instanceof Verdict.Change
              || verdict instanceof Verdict.Finish;
      case RECOVERY ->
          waits
              || stops
              || verdict instanceof Verdict.End
              || verdict instanceof Verdict.NotRecovered;
      case ENDED -> verdict instanceof Verdict.Over;
    };
  }
}
