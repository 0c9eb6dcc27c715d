package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.words.Message;

/** What acting on a verdict changes in a test. Each method edits the next state. */
final class VerdictEffect implements Verdict.Visitor<TestState.Change> {

  private final StateAt now;
  private final TestState state;
  private final Duration at;
  private final TestState.Change change;

  /**
   * @param now the moment at which it takes effect
   */
  VerdictEffect(StateAt now, TestState.Change change) {
    this.now = now;
    this.state = now.state();
    this.at = now.time();
    this.change = change;
  }

  @Override
  public TestState.Change ready(Verdict.Ready ready) {
    begin(ready.stage(), ready.loads());
    return change;
  }

  @Override
  public TestState.Change defer(Verdict.Defer defer) {
    return change.end(Ending.DEFERRED);
  }

  @Override
  public TestState.Change goOn(Verdict.Continue goOn) {
    return change;
  }

  @Override
  public TestState.Change measure(Verdict.Measure measure) {
    return change;
  }

  @Override
  public TestState.Change hold(Verdict.Hold hold) {
    change.replace(state.runs.size() - 1, state.currentRun().held(hold.until(), at));
    return change;
  }

  // The same stage from its beginning: its readings, its holds and its time start anew.
  @Override
  public TestState.Change change(Verdict.Change again) {
    int changes = state.currentRun().changes() + 1;
    leave();
    begin(again.stage(), again.loads());
    int last = change.runs.size() - 1;
    change.replace(last, change.runs.get(last).changed(changes));
    return change;
  }

  @Override
  public TestState.Change advance(Verdict.Advance advance) {
    leave();
    begin(advance.stage(), advance.loads());
    return change;
  }

  @Override
  public TestState.Change finish(Verdict.Finish finish) {
    recover(false, finish.then());
    return change;
  }

  @Override
  public TestState.Change stop(Verdict.Stop stop) {
    if (state.phase == Phase.RECOVERY) {
      Symptoms.noteAlarm(now, change);
      return change.end(Ending.EMERGENCY);
    }
    change.recovery = change.recovery.stoppedExercise();
    recover(stop.rest(), stop.then());
    return change;
  }

  @Override
  public TestState.Change end(Verdict.End end) {
    return change.end(Ending.RECOVERED);
  }

  @Override
  public TestState.Change notRecovered(Verdict.NotRecovered notRecovered) {
    return change.end(Ending.NOT_RECOVERED);
  }

  @Override
  public TestState.Change over(Verdict.Over over) {
    return change;
  }

  // The load that was shown is the load that was set, whatever was told later.
  private void begin(String id, List<Loading> shown) {
    Stage stage = state.protocol.stage(id).orElseThrow(() -> unknown(id));
    List<Loading> loads = shown.isEmpty() ? Loads.of(state, stage, at) : shown;
    change.phase = Phase.STAGE;
    change.runs = PersistentCollections.with(change.runs, StageRun.begin(stage, loads, at));
    change.signs = change.signs.keeping(sign -> state.protocol.instruments().sign(sign).lasts());
  }

  private ReadingRefused unknown(String stage) {
    List<String> stages = state.protocol.stages().stream().map(Stage::id).toList();
    Message otherwise = Message.of(SessionMessage.STAGES_ARE, stages);
    return new ReadingRefused(
        Code.G506, stage, SessionMessage.A_VERDICT, Suggestion.help(stage, stages, otherwise));
  }

  private void leave() {
    StageRun run = state.currentRun();
    boolean atItsEnd = at.compareTo(run.end()) >= 0;
    Duration decided = atItsEnd ? decidedAt() : run.since(at);
    change.replace(state.runs.size() - 1, run.left(decided, atItsEnd));
  }

  // The due time whose readings the last decision rested on.
  private Duration decidedAt() {
    return new StageJudge(now).decidedDue().orElse(state.currentRun().endInStage());
  }

  private void recover(boolean rest, List<Loading> shown) {
    leave();
    change.recovery = change.recovery.after(at);
    change.watches = change.watches.with(Optional.empty());
    change.readings = change.readings.finished();
    RuleWatch.goOn(state, change);
    Symptoms.note(state, change.watches.heard(), change);
    Symptoms.noteAlarm(now, change);
    change.signs = change.signs.keeping(sign -> state.protocol.instruments().sign(sign).lasts());
    Optional<Recovery> recovery = state.protocol.recovery();
    if (recovery.isEmpty()) {
      change.end(Ending.DONE);
      return;
    }
    change.phase = Phase.RECOVERY;
    List<List<Loading>> loads = new ArrayList<>(RecoveryStage.loads(state, at));
    if (rest) {
      // Whatever the file sets in its last stage: who has to rest is not made to go on.
      loads.set(recovery.get().stages().indexOf(recovery.get().rest()), List.of());
    } else if (!shown.isEmpty()) {
      loads.set(0, shown);
    }
    Duration skipped = rest ? before(recovery.get()) : Duration.ZERO;
    change.recovery = change.recovery.begun(skipped, loads);
  }

  private static Duration before(Recovery recovery) {
    return recovery.stages().stream()
        .takeWhile(stage -> !stage.equals(recovery.rest()))
        .map(Stage::lasts)
        .reduce(Duration.ZERO, Duration::plus);
  }
}
