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

/** What acting on a verdict makes of a test. Each method changes the course in the making. */
final class VerdictEffect implements Verdict.Visitor<Course.Change> {

  private final Moment now;
  private final Course course;
  private final Duration at;
  private final Course.Change change;

  /**
   * @param now the moment at which it takes effect
   */
  VerdictEffect(Moment now, Course.Change change) {
    this.now = now;
    this.course = now.course();
    this.at = now.time();
    this.change = change;
  }

  @Override
  public Course.Change ready(Verdict.Ready ready) {
    begin(ready.stage(), ready.loads());
    return change;
  }

  @Override
  public Course.Change defer(Verdict.Defer defer) {
    return change.end(Ending.DEFERRED);
  }

  @Override
  public Course.Change goOn(Verdict.Continue goOn) {
    return change;
  }

  @Override
  public Course.Change measure(Verdict.Measure measure) {
    return change;
  }

  @Override
  public Course.Change hold(Verdict.Hold hold) {
    change.replace(course.passages.size() - 1, course.present().held(hold.until(), at));
    return change;
  }

  @Override
  public Course.Change advance(Verdict.Advance advance) {
    leave();
    begin(advance.stage(), advance.loads());
    return change;
  }

  @Override
  public Course.Change finish(Verdict.Finish finish) {
    recover(false, finish.then());
    return change;
  }

  @Override
  public Course.Change stop(Verdict.Stop stop) {
    if (course.phase == Phase.RECOVERY) {
      Symptoms.noteAlarm(now, change);
      return change.end(Ending.EMERGENCY);
    }
    change.stopped = true;
    recover(stop.rest(), stop.then());
    return change;
  }

  @Override
  public Course.Change end(Verdict.End end) {
    return change.end(Ending.RECOVERED);
  }

  @Override
  public Course.Change notRecovered(Verdict.NotRecovered notRecovered) {
    return change.end(Ending.NOT_RECOVERED);
  }

  @Override
  public Course.Change over(Verdict.Over over) {
    return change;
  }

  // The load that was shown is the load that was set, whatever was told later.
  private void begin(String id, List<Loading> shown) {
    Stage stage = course.protocol.stage(id).orElseThrow(() -> unknown(id));
    List<Loading> loads = shown.isEmpty() ? Loads.of(course, stage, at) : shown;
    if (course.phase == Phase.BEFORE) {
      change.ofThePerson = Optional.of(Sight.ofThePerson(course));
    }
    change.phase = Phase.STAGE;
    change.passages = Copies.with(change.passages, Passage.begin(stage, loads, at));
    change.signs =
        Copies.keeping(change.signs, sign -> course.protocol.instruments().sign(sign).lasts());
  }

  private ReadingRefused unknown(String stage) {
    List<String> stages = course.protocol.stages().stream().map(Stage::id).toList();
    String otherwise = "its stages are " + String.join(", ", stages);
    return new ReadingRefused(
        Code.G506, stage, "a verdict", Suggestion.help(stage, stages, otherwise));
  }

  private void leave() {
    Passage passage = course.present();
    boolean atItsEnd = at.compareTo(passage.end()) >= 0;
    Duration decided = atItsEnd ? decidedAt() : passage.since(at);
    change.replace(course.passages.size() - 1, passage.left(decided, atItsEnd));
  }

  // The due time whose readings the last decision rested on.
  private Duration decidedAt() {
    return new StageJudge(now).decidedDue().orElse(course.present().endInStage());
  }

  private void recover(boolean rest, List<Loading> shown) {
    leave();
    change.exerciseEnd = Optional.of(at);
    change.alarm = Optional.empty();
    change.atFinish = Copies.and(change.atFinish, course.latest);
    RuleWatch.goOn(course, change);
    Symptoms.note(course, change.heard(), change);
    Symptoms.noteAlarm(now, change);
    change.signs =
        Copies.keeping(change.signs, sign -> course.protocol.instruments().sign(sign).lasts());
    Optional<Recovery> recovery = course.protocol.recovery();
    if (recovery.isEmpty()) {
      change.end(Ending.DONE);
      return;
    }
    change.phase = Phase.RECOVERY;
    change.recoverySkipped = rest ? before(recovery.get()) : Duration.ZERO;
    List<List<Loading>> loads = new ArrayList<>(RecoveryStage.loads(course, at));
    if (rest) {
      // Whatever the file sets in its last stage: who has to rest is not made to go on.
      loads.set(recovery.get().stages().indexOf(recovery.get().rest()), List.of());
    } else if (!shown.isEmpty()) {
      loads.set(0, shown);
    }
    change.recoveryLoads = List.copyOf(loads);
  }

  private static Duration before(Recovery recovery) {
    return recovery.stages().stream()
        .takeWhile(stage -> !stage.equals(recovery.rest()))
        .map(Stage::lasts)
        .reduce(Duration.ZERO, Duration::plus);
  }
}
