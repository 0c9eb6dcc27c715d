package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Recovery;
import org.gradus.protocol.Stage;
import org.gradus.rule.plan.Frame;

/** Makes the next course out of a course and an event. An event that is refused changes nothing. */
final class Intake {

  private Intake() {}

  /** Takes in an event as it is told, and refuses what cannot be told or done at its moment. */
  static Moment apply(Course course, Event event) {
    refuseTooLong(event);
    if (isAmendment(event)) {
      return amend(course, event);
    }
    Moment now = moment(course, event);
    if (event instanceof Event.Followed followed) {
      return follow(now, followed, Judge.at(now));
    } else if (event instanceof Event.Overridden overridden) {
      new Overriding(now.course()).refuseUnlessPossible(overridden);
    } else if (event instanceof Event.Abandoned abandoned) {
      new Overriding(now.course()).refuseUnlessPossible(abandoned);
    }
    return apply(now, event, event, Act.of(event, now));
  }

  /** The same for a verdict that is followed, where what is decided at its moment is known. */
  static Moment follow(Course course, Event.Followed event, Decision decision) {
    return follow(moment(course, event), event, decision);
  }

  private static Moment follow(Moment now, Event.Followed event, Decision decision) {
    new Following(decision).refuseUnlessPossible(event.verdict());
    return apply(now, event, event, Act.of(event, now));
  }

  /** Takes in an event of another test as if it had happened in this one: what was done stands. */
  static Moment suppose(Course course, Event event) {
    return isAmendment(event)
        ? amend(course, event)
        : apply(course, event, event, Optional.empty());
  }

  private static boolean isAmendment(Event event) {
    return event instanceof Event.Amended || event instanceof Event.Rejected;
  }

  private static Moment amend(Course course, Event event) {
    refuseWithoutReason(event);
    return Amendments.apply(course, event);
  }

  /**
   * Takes in an event that was told before, once more. What was done stands, whatever would be
   * recommended by what is known now.
   *
   * @param told the event as it was told, for the record
   * @param event the event as it counts, after what was told later about it
   * @param past what it meant when it was told, if that is some time ago
   */
  static Moment apply(Course course, Event told, Event event, Optional<Act> past) {
    Moment now = moment(course, event);
    return apply(now, told, event, past.orElseGet(() -> Act.of(event, now)));
  }

  private static Moment moment(Course course, Event event) {
    Times.refuseImpossible("an event", event.at());
    if (event.at().compareTo(course.now) < 0) {
      throw new ReadingRefused(
          Code.G503, "an event", Times.clock(event.at()), Times.clock(course.now));
    }
    return Moment.of(course, event.at());
  }

  private static Moment apply(Moment now, Event told, Event event, Act act) {
    refuseWithoutReason(event);
    Course before = now.course();
    Map<String, Taken> readings = new HashMap<>();
    Course after =
        before.with(
            change -> {
              change.now = event.at();
              change.events = change.events.and(told, event, act.answered());
              put(event, now, act, change, readings);
            });
    Map<String, Duration> news = new HashMap<>();
    if (event instanceof Event.Reported reported) {
      news.put(reported.sign(), reported.at());
    }
    readings.forEach((signal, taken) -> news.put(signal, taken.time()));
    Moment happened = Moment.after(after);
    // A late reading of the exercise is looked at once; it does not become one of recovery.
    boolean late = !after.latest.keySet().containsAll(readings.keySet());
    if (late) {
      Frame withLate = Sight.by(Copies.and(readings, after.latest), after, after.now);
      happened = happened.with(StopMonitor.look(happened, withLate, news));
    }
    Moment looked =
        happened.with(StopMonitor.look(happened, happened.latest(), late ? Map.of() : news));
    return looked.with(StageJudge.keepUndecided(looked));
  }

  private static void put(
      Event event, Moment now, Act act, Course.Change change, Map<String, Taken> newest) {
    Course course = now.course();
    if (event instanceof Event.Read read && read.readings().isEmpty()) {
      return; // all of it was taken back
    } else if (event instanceof Event.Read read) {
      Times.refuseImpossible("a reading", read.taken());
      newest.putAll(new Placement(course, change, read).place());
    } else if (event instanceof Event.Reported reported) {
      Reports.report(reported, course, change);
    } else if (event instanceof Event.Withdrawn withdrawn) {
      Reports.withdraw(withdrawn.sign(), course, change);
    } else if (event instanceof Event.LoadSet set) {
      Reports.loadSet(set, course, change);
    } else if (event instanceof Event.Done done) {
      Reports.done(done, course, change);
    } else if (event instanceof Event.Followed followed) {
      act.answer(change, event.at());
      effect(followed.verdict(), now, act, change);
    } else if (event instanceof Event.Overridden overridden) {
      new PlausibleLoads(course.protocol).check(overridden.verdict());
      // To whoever decides otherwise also what was read before and is told later is new.
      boolean stops = overridden.verdict() instanceof Verdict.Stop;
      act.answer(change, stops ? event.at() : Duration.ZERO);
      if (course.phase == Phase.RECOVERY) {
        Symptoms.note(course, act.answered(), change);
      }
      effect(overridden.verdict(), now, act, change);
    } else if (event instanceof Event.Abandoned) {
      Symptoms.noteAlarm(now, change);
      end(Ending.ABANDONED, change);
    }
  }

  // A record has room for so much, and what cannot be recorded has not happened.
  private static void refuseTooLong(Event event) {
    int length = reason(event).length();
    if (length > Telling.LONGEST_REASON) {
      throw new ReadingRefused(
          Code.G511,
          "the reason",
          Integer.toString(length),
          Integer.toString(Telling.LONGEST_REASON));
    }
  }

  private static String reason(Event event) {
    if (event instanceof Event.Withdrawn withdrawn) {
      return withdrawn.reason();
    } else if (event instanceof Event.Amended amended) {
      return amended.reason();
    } else if (event instanceof Event.Rejected rejected) {
      return rejected.reason();
    } else if (event instanceof Event.Overridden overridden) {
      return overridden.reason();
    }
    return event instanceof Event.Abandoned abandoned ? abandoned.reason() : "";
  }

  private static void refuseWithoutReason(Event event) {
    String reason = "as the case may be";
    String what = "";
    if (event instanceof Event.Withdrawn withdrawn) {
      reason = withdrawn.reason();
      what = withdrawn.sign() + " as withdrawn";
    } else if (event instanceof Event.Amended amended) {
      reason = amended.reason();
      what = "an amendment";
    } else if (event instanceof Event.Rejected rejected) {
      reason = rejected.reason();
      what = rejected.subject() + " as rejected";
    }
    if (reason.isBlank()) {
      throw new ReadingRefused(Code.G510, what, "without a reason", "say why");
    }
  }

  private static void effect(Verdict verdict, Moment now, Act act, Course.Change change) {
    Course course = now.course();
    Duration at = now.time();
    boolean needsStage =
        verdict instanceof Verdict.Advance
            || verdict instanceof Verdict.Hold
            || verdict instanceof Verdict.Finish
            || verdict instanceof Verdict.Stop;
    if (needsStage && course.passages.isEmpty()) {
      throw new ReadingRefused(
          Code.G510, verdict.word(), "before the test", "no stage has begun that it could end");
    }
    if (act.isKnowing()) {
      change.withoutMarginal();
    }
    if (verdict instanceof Verdict.Ready ready) {
      begin(ready.stage(), ready.loads(), course, change, at);
    } else if (verdict instanceof Verdict.Advance advance) {
      leave(now, change);
      begin(advance.stage(), advance.loads(), course, change, at);
    } else if (verdict instanceof Verdict.Hold hold) {
      Passage passage = course.present();
      change.replace(course.passages.size() - 1, passage.held(hold.until(), at));
    } else if (verdict instanceof Verdict.Finish finish) {
      recover(now, change, false, finish.then());
    } else if (verdict instanceof Verdict.Stop stop) {
      if (course.phase == Phase.RECOVERY) {
        Symptoms.noteAlarm(now, change);
        end(Ending.EMERGENCY, change);
      } else {
        change.stopped = true;
        recover(now, change, stop.rest(), stop.then());
      }
    } else if (verdict instanceof Verdict.End) {
      end(Ending.RECOVERED, change);
    } else if (verdict instanceof Verdict.NotRecovered) {
      end(Ending.NOT_RECOVERED, change);
    } else if (verdict instanceof Verdict.Defer) {
      end(Ending.DEFERRED, change);
    }
  }

  // The load that was shown is the load that was set, whatever was told later.
  private static void begin(
      String id, List<Loading> shown, Course course, Course.Change change, Duration at) {
    Stage stage = course.protocol.stage(id).orElseThrow(() -> unknown(id, course));
    List<Loading> loads = shown.isEmpty() ? Loads.of(course, stage, at) : shown;
    if (course.phase == Phase.BEFORE) {
      change.ofThePerson = Optional.of(Sight.ofThePerson(course));
    }
    change.phase = Phase.STAGE;
    change.passages = Copies.with(change.passages, Passage.begin(stage, loads, at));
    change.signs =
        Copies.keeping(change.signs, sign -> course.protocol.instruments().sign(sign).lasts());
  }

  private static ReadingRefused unknown(String stage, Course course) {
    List<String> stages = course.protocol.stages().stream().map(Stage::id).toList();
    String otherwise = "its stages are " + String.join(", ", stages);
    return new ReadingRefused(
        Code.G506, stage, "a verdict", Suggestion.help(stage, stages, otherwise));
  }

  private static void leave(Moment now, Course.Change change) {
    Course course = now.course();
    Duration at = now.time();
    Passage passage = course.present();
    boolean atItsEnd = at.compareTo(passage.end()) >= 0;
    Duration decided = atItsEnd ? decidedAt(now) : passage.since(at);
    change.replace(course.passages.size() - 1, passage.left(decided, atItsEnd));
  }

  // The due time whose readings the last decision rested on.
  private static Duration decidedAt(Moment now) {
    return new StageJudge(now).decidedDue().orElse(now.course().present().endInStage());
  }

  private static void recover(Moment now, Course.Change change, boolean rest, List<Loading> shown) {
    Course course = now.course();
    Duration at = now.time();
    leave(now, change);
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
      end(Ending.DONE, change);
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

  private static void end(Ending ending, Course.Change change) {
    change.phase = Phase.ENDED;
    change.alarm = Optional.empty();
    change.ending = Optional.of(ending);
  }
}
