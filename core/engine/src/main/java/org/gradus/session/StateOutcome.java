package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.internal.KeyMoments;
import org.gradus.protocol.Instruments;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.rule.plan.Frame;

/** A test at the moment of its last event. Immutable, as its state is. */
final class StateOutcome implements Outcome, KeyMoments {

  private final TestState state;

  StateOutcome(TestState state) {
    this.state = state;
  }

  @Override
  public Protocol protocol() {
    return state.protocol;
  }

  @Override
  public Person person() {
    return state.person;
  }

  @Override
  public Phase phase() {
    return state.phase;
  }

  @Override
  public Optional<Ending> ending() {
    return state.ending;
  }

  @Override
  public boolean stopped() {
    return state.recovery.stopped();
  }

  @Override
  public boolean needsClearance() {
    return state.watches.alarmed()
        || state.ending.filter(Ending.EMERGENCY::equals).isPresent()
        || cleared().filter(cleared -> !cleared).isPresent();
  }

  @Override
  public boolean clearedAfterStop() {
    return cleared().orElse(false);
  }

  private Optional<Boolean> cleared() {
    return Optional.ofNullable(state.readings.answers().get(Instruments.CLEARED_AFTER_STOP))
        .map(answer -> answer.value() == 1);
  }

  @Override
  public List<Loading> load() {
    return load(state.now);
  }

  @Override
  public List<Loading> load(Duration at) {
    return Agendas.load(state, at);
  }

  @Override
  public List<StageResult> stages() {
    List<StageResult> results = new ArrayList<>();
    for (int i = 0; i < state.runs.size(); i++) {
      StageRun run = state.runs.get(i);
      if (run.decided().isPresent()) {
        Duration end =
            i + 1 < state.runs.size()
                ? state.runs.get(i + 1).start()
                : state.recovery.exerciseEnd().orElse(state.now);
        results.add(
            new StageResult(
                run.stage().id(),
                run.start(),
                run.lasted(end),
                run.loadsUntil(run.start().plus(run.decided().get())),
                run.stage().warmUp(),
                run.stage().pause(),
                run.completed(),
                i));
      }
    }
    return results;
  }

  @Override
  public Frame atEndOf(int place) {
    StageRun run = state.runs.get(place);
    return FrameFiller.atDue(state, run, run.decided().orElse(run.endInStage())).complete();
  }

  @Override
  public boolean exerciseHasEnded() {
    return state.recovery.exerciseEnd().isPresent();
  }

  @Override
  public Frame inRecovery() {
    return FrameFiller.by(state.readings.latest(), state, state.now).complete();
  }

  @Override
  public Frame atFinish() {
    return FrameFiller.atFinish(state).complete();
  }
}
