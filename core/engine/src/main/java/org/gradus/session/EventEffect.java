package org.gradus.session;

import java.time.Duration;
import java.util.Map;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;

/**
 * What an event changes in a test. Each method edits the next state and returns the readings that
 * are now the newest of their signal.
 */
final class EventEffect implements Event.Visitor<Map<String, StoredReading>> {

  private final StateAt now;
  private final TestState state;
  private final AnsweredRules answered;
  private final TestState.Change change;

  /**
   * @param now the moment before the event
   * @param answered the rules that it answers
   */
  EventEffect(StateAt now, AnsweredRules answered, TestState.Change change) {
    this.now = now;
    this.state = now.state();
    this.answered = answered;
    this.change = change;
  }

  @Override
  public Map<String, StoredReading> read(Event.Read read) {
    if (read.readings().isEmpty()) {
      return Map.of(); // all of it was taken back
    }
    Times.refuseImpossible(SessionMessage.A_READING, read.taken());
    return new ReadingPlacer(state, change, read).place();
  }

  @Override
  public Map<String, StoredReading> reported(Event.Reported reported) {
    TesterReports.report(reported, state, change);
    return Map.of();
  }

  @Override
  public Map<String, StoredReading> withdrawn(Event.Withdrawn withdrawn) {
    TesterReports.withdraw(withdrawn.sign(), state, change);
    return Map.of();
  }

  // The events that were told before are replayed as they count now; nothing is left to do.
  @Override
  public Map<String, StoredReading> amended(Event.Amended amended) {
    return Map.of();
  }

  @Override
  public Map<String, StoredReading> rejected(Event.Rejected rejected) {
    return Map.of();
  }

  @Override
  public Map<String, StoredReading> loadSet(Event.LoadSet set) {
    TesterReports.loadSet(set, state, change);
    return Map.of();
  }

  @Override
  public Map<String, StoredReading> done(Event.Done done) {
    TesterReports.done(done, state, change);
    return Map.of();
  }

  @Override
  public Map<String, StoredReading> followed(Event.Followed followed) {
    answered.answer(change, now.time());
    return act(followed.verdict());
  }

  @Override
  public Map<String, StoredReading> overridden(Event.Overridden overridden) {
    new LoadValidator(state.protocol).check(overridden.verdict());
    // To whoever decides otherwise also what was read before and is told later is new.
    boolean stops = overridden.verdict().kind() == Verdict.Kind.STOP;
    answered.answer(change, stops ? now.time() : Duration.ZERO);
    if (state.phase == Phase.RECOVERY) {
      Symptoms.note(state, answered.answered(), change);
    }
    return act(overridden.verdict());
  }

  @Override
  public Map<String, StoredReading> abandoned(Event.Abandoned abandoned) {
    Symptoms.noteAlarm(now, change);
    change.end(Ending.ABANDONED);
    return Map.of();
  }

  private Map<String, StoredReading> act(Verdict verdict) {
    if (endsAStage(verdict.kind()) && state.runs.isEmpty()) {
      throw new ReadingRefused(
          Code.G510,
          VerdictMessages.word(verdict.kind()),
          SessionMessage.BEFORE_THE_TEST,
          SessionMessage.NO_STAGE_TO_END);
    }
    if (answered.isKnowing()) {
      change.watches = change.watches.withoutMarginal();
    }
    verdict.accept(new VerdictEffect(now, change));
    return Map.of();
  }

  private static boolean endsAStage(Verdict.Kind kind) {
    return switch (kind) {
      case ADVANCE, HOLD, CHANGE, FINISH, STOP -> true;
      case READY, DEFER, CONTINUE, MEASURE, END, NOT_RECOVERED, OVER -> false;
    };
  }
}
