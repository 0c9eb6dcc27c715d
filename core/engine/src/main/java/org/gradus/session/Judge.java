package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;

/** Makes the decision of a moment from the state of a test. Pure: asking changes nothing. */
final class Judge {

  private Judge() {}

  static Decision decide(TestState state, Duration time) {
    return at(moment(state, time));
  }

  /** When the decision of a moment may change by itself. */
  static Optional<Duration> changesAt(TestState state, Duration time) {
    return NextDecisionChange.of(moment(state, time));
  }

  private static StateAt moment(TestState state, Duration time) {
    Times.refuseImpossible(SessionMessage.THE_QUESTION, time);
    if (time.compareTo(state.now) < 0) {
      throw new ReadingRefused(
          Code.G503, SessionMessage.THE_QUESTION, Times.clock(time), Times.clock(state.now));
    }
    return StateAt.of(state, time);
  }

  /** The decision of a moment that time has been brought up to. */
  static Decision at(StateAt now) {
    return switch (now.state().phase) {
      case BEFORE -> new BeforeJudge(now).decide();
      case STAGE -> new StageJudge(now).decide();
      case RECOVERY -> new RecoveryJudge(now).decide();
      case ENDED -> over(now);
    };
  }

  private static Decision over(StateAt now) {
    return Decision.of(
        now,
        Optional.empty(),
        new Verdict.Over(now.state().ending.orElse(Ending.DONE)),
        Optional.empty(),
        Firmness.FIRM,
        List.of(),
        List.of(),
        List.of(),
        () -> Agenda.EMPTY);
  }
}
