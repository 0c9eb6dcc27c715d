package org.gradus.testkit;

import java.time.Duration;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.jspecify.annotations.Nullable;

/** Sessions with faults such as a session might have. */
final class BrokenSessions {

  private BrokenSessions() {}

  /** Fails otherwise than by a refusal. */
  static final class Fails extends LiveSession {
    Fails(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      if (events().size() > 4) {
        throw new IllegalStateException("lost my way");
      }
      return super.apply(step);
    }
  }

  /** Has room for three events. */
  static final class ForgetsEvents extends LiveSession {
    ForgetsEvents(Session session) {
      super(session);
    }

    @Override
    public List<Event> events() {
      List<Event> all = super.events();
      return all.subList(Math.max(0, all.size() - 3), all.size());
    }
  }

  /** Breaks the test off when it is told nonsense. */
  static final class GivesUp extends LiveSession {
    GivesUp(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      try {
        return super.apply(step);
      } catch (GradusException refused) {
        if (phase() != Phase.ENDED) {
          session().abandon(now(), "nonsense");
        }
        throw refused;
      }
    }
  }

  /** Follows its own advice. */
  static final class ActsWhenAsked extends LiveSession {
    ActsWhenAsked(Session session) {
      super(session);
    }

    @Override
    public Decision decide(Duration at) {
      Decision decision = super.decide(at);
      session().follow(decision);
      return decision;
    }
  }

  /** Answers with what it should have said the time before. */
  static final class LagsBehind extends LiveSession {
    private @Nullable Decision last;

    LagsBehind(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      Decision answer = super.apply(step);
      Decision before = last;
      last = answer;
      return before == null ? answer : before;
    }
  }

  /** Has a clock that moves with events only. */
  static final class StandsStill extends LiveSession {
    StandsStill(Session session) {
      super(session);
    }

    @Override
    public Decision decide(Duration at) {
      return super.decide(now());
    }
  }

  /** Asks for what it was told, and goes on asking. */
  static final class HearsNoReading extends LiveSession {
    HearsNoReading(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      boolean read = step instanceof Step.Tell tell && tell.event() instanceof Event.Read;
      boolean begun = phase() == Phase.STAGE || phase() == Phase.RECOVERY;
      return read && begun ? decide(step.at()) : super.apply(step);
    }

    @Override
    public LiveSession fork() {
      return new HearsNoReading(session().fork());
    }
  }

  /** Takes one reading for two. */
  static final class ReadsTwice extends LiveSession {
    ReadsTwice(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      if (step instanceof Step.Tell tell
          && tell.event() instanceof Event.Read read
          && phase() == Phase.STAGE) {
        for (int before : new int[] {60, 30}) {
          tellAgain(read, read.taken().minusSeconds(before));
        }
      }
      return super.apply(step);
    }

    private void tellAgain(Event.Read read, Duration earlier) {
      try {
        super.apply(new Step.Tell(new Event.Read(read.readings(), earlier, read.at())));
      } catch (GradusException refused) {
        // Then there is but one.
      }
    }
  }

  /** Says STOP a single time. */
  static final class StopsOnce extends LiveSession {
    private @Nullable Decision other;
    private boolean said;

    StopsOnce(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      Decision answer = super.apply(step);
      if (!(answer.verdict() instanceof Verdict.Stop)) {
        other = answer;
      } else if (said && other != null) {
        return other;
      }
      said |= answer.verdict() instanceof Verdict.Stop;
      return answer;
    }
  }

  /** Takes a followed stop for a rest. */
  static final class NeverLeavesTheStage extends LiveSession {
    NeverLeavesTheStage(Session session) {
      super(session);
    }

    @Override
    public Phase phase() {
      return super.phase() == Phase.RECOVERY ? Phase.STAGE : super.phase();
    }
  }

  /** Does not hear what is reported. */
  static final class PassesOverSigns extends LiveSession {
    PassesOverSigns(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      boolean report = step instanceof Step.Tell tell && tell.event() instanceof Event.Reported;
      return report ? decide(step.at()) : super.apply(step);
    }
  }

  /** Every other one misses what is read. */
  static final class HasMoods extends LiveSession {
    private final boolean attentive;

    private HasMoods(Session session, boolean attentive) {
      super(session);
      this.attentive = attentive;
    }

    static Function<Session, LiveSession> maker() {
      AtomicInteger made = new AtomicInteger();
      return session -> new HasMoods(session, made.incrementAndGet() % 2 == 0);
    }

    @Override
    public Decision apply(Step step) {
      boolean read = step instanceof Step.Tell tell && tell.event() instanceof Event.Read;
      return read && !attentive ? decide(step.at()) : super.apply(step);
    }
  }

  /** Is cut off while it is written. */
  static final class LosesTheLastLine extends LiveSession {
    LosesTheLastLine(Session session) {
      super(session);
    }

    @Override
    public String record() {
      List<String> lines = super.record().lines().toList();
      return lines.subList(0, lines.size() - 1).stream()
          .map(line -> line + "\n")
          .collect(Collectors.joining());
    }
  }

  /** Takes a reading to be of when it is told. */
  static final class CountsWhenTold extends LiveSession {
    CountsWhenTold(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      return step instanceof Step.Tell tell && tell.event() instanceof Event.Read read
          ? super.apply(new Step.Tell(new Event.Read(read.readings(), read.at(), read.at())))
          : super.apply(step);
    }

    @Override
    public LiveSession fork() {
      return new CountsWhenTold(session().fork());
    }
  }

  /** Takes km/h for m/s. */
  static final class TakesHoursForSeconds extends LiveSession {
    TakesHoursForSeconds(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      Decision answer = super.apply(step);
      return answer.verdict() instanceof Verdict.Advance advance
          ? new Decision(
              answer.at(),
              answer.phase(),
              answer.stage(),
              new Verdict.Advance(
                  advance.stage(), advance.loads().stream().map(this::wrong).toList()),
              answer.because(),
              answer.firmness(),
              answer.offers(),
              answer.cautions(),
              answer.unchecked(),
              answer.agenda(),
              answer.event(),
              answer.hindsight(),
              answer.changesAt())
          : answer;
    }

    private Loading wrong(Loading load) {
      return load.value().kind() == Kind.SPEED
          ? new Loading(load.name(), Quantity.of(load.value().in(Unit.KMH), Unit.METRE_PER_SECOND))
          : load;
    }
  }

  /** Takes no notice of a stop when it is asked late. */
  static final class LooksTwentySecondsBack extends LiveSession {
    LooksTwentySecondsBack(Session session) {
      super(session);
    }

    @Override
    public Decision decide(Duration at) {
      Decision decision = super.decide(at);
      boolean late = at.compareTo(now().plusSeconds(20)) > 0;
      return late && decision.verdict() instanceof Verdict.Stop
          ? new Decision(
              at,
              decision.phase(),
              decision.stage(),
              new Verdict.Finish(),
              decision.because(),
              decision.firmness(),
              decision.offers(),
              decision.cautions(),
              decision.unchecked(),
              decision.agenda(),
              decision.event(),
              decision.hindsight(),
              decision.changesAt())
          : decision;
    }
  }

  /** Goes on about a stop that was followed. */
  static final class SaysItAgain extends LiveSession {
    private @Nullable Decision followed;

    SaysItAgain(Session session) {
      super(session);
    }

    @Override
    public Decision decide(Duration at) {
      Decision before = followed;
      return before != null && phase() == Phase.RECOVERY
          ? new Decision(
              at,
              Phase.RECOVERY,
              before.stage(),
              before.verdict(),
              before.because(),
              before.firmness(),
              before.offers(),
              before.cautions(),
              before.unchecked(),
              before.agenda(),
              before.event(),
              before.hindsight(),
              before.changesAt())
          : super.decide(at);
    }

    @Override
    public Decision apply(Step step) {
      Decision shown = super.apply(step);
      if (step instanceof Step.Follow && shown.verdict() instanceof Verdict.Stop) {
        followed = shown;
      }
      return shown;
    }
  }

  /** Stays a little longer, whatever is decided. */
  static final class AlwaysHolds extends LiveSession {
    AlwaysHolds(Session session) {
      super(session);
    }

    @Override
    public Decision apply(Step step) {
      Decision shown = phase() == Phase.STAGE ? decide(step.at()) : null;
      if (shown != null
          && step instanceof Step.Follow
          && (shown.verdict() instanceof Verdict.Advance
              || shown.verdict() instanceof Verdict.Finish)) {
        session().override(step.at(), new Verdict.Hold(step.at().plusSeconds(60)), "once more");
        return shown;
      }
      return super.apply(step);
    }
  }
}
