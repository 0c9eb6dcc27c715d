package org.gradus.session;

import java.time.Duration;
import java.util.Map;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;

/**
 * What an event makes of a test. Each method changes the course in the making, and returns the
 * readings that are now the newest of their signal.
 */
final class EventEffect implements Event.Visitor<Map<String, Taken>> {

  private final Moment now;
  private final Course course;
  private final Act act;
  private final Course.Change change;

  /**
   * @param now the moment before the event
   * @param act what it says to the rules that have spoken
   */
  EventEffect(Moment now, Act act, Course.Change change) {
    this.now = now;
    this.course = now.course();
    this.act = act;
    this.change = change;
  }

  @Override
  public Map<String, Taken> read(Event.Read read) {
    if (read.readings().isEmpty()) {
      return Map.of(); // all of it was taken back
    }
    Times.refuseImpossible("a reading", read.taken());
    return new Placement(course, change, read).place();
  }

  @Override
  public Map<String, Taken> reported(Event.Reported reported) {
    Reports.report(reported, course, change);
    return Map.of();
  }

  @Override
  public Map<String, Taken> withdrawn(Event.Withdrawn withdrawn) {
    Reports.withdraw(withdrawn.sign(), course, change);
    return Map.of();
  }

  // The events that were told before are replayed as they count now; nothing is left to do.
  @Override
  public Map<String, Taken> amended(Event.Amended amended) {
    return Map.of();
  }

  @Override
  public Map<String, Taken> rejected(Event.Rejected rejected) {
    return Map.of();
  }

  @Override
  public Map<String, Taken> loadSet(Event.LoadSet set) {
    Reports.loadSet(set, course, change);
    return Map.of();
  }

  @Override
  public Map<String, Taken> done(Event.Done done) {
    Reports.done(done, course, change);
    return Map.of();
  }

  @Override
  public Map<String, Taken> followed(Event.Followed followed) {
    act.answer(change, now.time());
    return act(followed.verdict());
  }

  @Override
  public Map<String, Taken> overridden(Event.Overridden overridden) {
    new PlausibleLoads(course.protocol).check(overridden.verdict());
    // To whoever decides otherwise also what was read before and is told later is new.
    boolean stops = overridden.verdict().kind() == Verdict.Kind.STOP;
    act.answer(change, stops ? now.time() : Duration.ZERO);
    if (course.phase == Phase.RECOVERY) {
      Symptoms.note(course, act.answered(), change);
    }
    return act(overridden.verdict());
  }

  @Override
  public Map<String, Taken> abandoned(Event.Abandoned abandoned) {
    Symptoms.noteAlarm(now, change);
    change.end(Ending.ABANDONED);
    return Map.of();
  }

  private Map<String, Taken> act(Verdict verdict) {
    if (endsAStage(verdict.kind()) && course.passages.isEmpty()) {
      throw new ReadingRefused(
          Code.G510, verdict.word(), "before the test", "no stage has begun that it could end");
    }
    if (act.isKnowing()) {
      change.withoutMarginal();
    }
    verdict.accept(new VerdictEffect(now, change));
    return Map.of();
  }

  private static boolean endsAStage(Verdict.Kind kind) {
    return switch (kind) {
      case ADVANCE, HOLD, FINISH, STOP -> true;
      case READY, DEFER, CONTINUE, MEASURE, END, NOT_RECOVERED, OVER -> false;
    };
  }
}
