package org.gradus.testkit;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.stream.Collectors;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Times;

/**
 * Something that is done to a session at a time of its own, and can be done to another one in the
 * same way. Its text is one line for people: {@code 3:00 told heart_rate 128 bpm}.
 */
public sealed interface Step {

  /** When it is done, since the start of the session. */
  Duration at();

  /**
   * Does it.
   *
   * @return what was answered, or what was shown before it was acted upon
   * @throws org.gradus.diagnostic.GradusException when the session refuses it
   */
  Decision apply(Session session);

  /**
   * To tell something, or to do something else than is recommended.
   *
   * @param event what; no {@link Event.Followed}, which is a step of its own
   */
  record Tell(Event event) implements Step {
    public Tell {
      requireNonNull(event, "event");
      if (event instanceof Event.Followed) {
        throw new ValueRefused(
            "a told event", event.toString(), "let the script follow the decision instead");
      }
    }

    @Override
    public Duration at() {
      return event.at();
    }

    @Override
    public Decision apply(Session session) {
      if (event instanceof Event.Read read) {
        Reading[] readings = read.readings().toArray(new Reading[0]);
        return session.recordTaken(read.at(), read.taken(), readings);
      } else if (event instanceof Event.Reported reported) {
        return reported.grade().isPresent()
            ? session.report(reported.at(), reported.sign(), reported.grade().getAsInt())
            : session.report(reported.at(), reported.sign());
      } else if (event instanceof Event.Withdrawn withdrawn) {
        return session.withdraw(withdrawn.at(), withdrawn.sign(), withdrawn.reason());
      } else if (event instanceof Event.Amended amended) {
        Reading better = amended.readings().get(0);
        return session.amend(amended.at(), amended.event(), better, amended.reason());
      } else if (event instanceof Event.Rejected rejected) {
        return session.reject(
            rejected.at(), rejected.event(), rejected.subject(), rejected.reason());
      } else if (event instanceof Event.LoadSet set) {
        return session.loadSet(set.at(), set.load());
      } else if (event instanceof Event.Done done) {
        return session.done(done.at(), done.reached());
      }
      Decision shown = session.decide(event.at());
      if (event instanceof Event.Overridden overridden) {
        session.override(overridden.at(), overridden.verdict(), overridden.reason());
      } else if (event instanceof Event.Abandoned abandoned) {
        session.abandon(abandoned.at(), abandoned.reason());
      }
      return shown;
    }

    @Override
    public String toString() {
      return Times.clock(at()) + " " + words();
    }

    private String words() {
      if (event instanceof Event.Read read) {
        String taken =
            read.taken().equals(read.at()) ? "" : ", taken at " + Times.clock(read.taken());
        return "told " + list(read.readings()) + taken;
      } else if (event instanceof Event.Reported reported) {
        String grade =
            reported.grade().isPresent() ? " of grade " + reported.grade().getAsInt() : "";
        return "reported " + reported.sign() + grade;
      } else if (event instanceof Event.Withdrawn withdrawn) {
        return "withdrew " + withdrawn.sign();
      } else if (event instanceof Event.Amended amended) {
        return "put event " + amended.event() + " right: " + list(amended.readings());
      } else if (event instanceof Event.Rejected rejected) {
        return "took " + rejected.subject() + " of event " + rejected.event() + " back";
      } else if (event instanceof Event.LoadSet set) {
        return "set " + set.load().name() + " to " + set.load().value();
      } else if (event instanceof Event.Done done) {
        return "done at " + Times.clock(done.reached());
      } else if (event instanceof Event.Overridden overridden) {
        return "decided otherwise: " + overridden.verdict();
      }
      return "broke the test off";
    }

    private static String list(List<Reading> readings) {
      return readings.stream().map(Tell::words).collect(Collectors.joining(", "));
    }

    private static String words(Reading reading) {
      String where =
          reading instanceof Reading.Baseline baseline ? baseline.posture().word() + "." : "";
      return where + reading.subject() + " " + reading;
    }
  }

  /**
   * To follow the decision of a moment.
   *
   * @param at the moment
   */
  record Follow(Duration at) implements Step {
    public Follow {
      requireNonNull(at, "at");
    }

    @Override
    public Decision apply(Session session) {
      Decision decision = session.decide(at);
      session.follow(decision);
      return decision;
    }

    @Override
    public String toString() {
      return Times.clock(at) + " followed";
    }
  }

  /**
   * To accept the first thing that the decision of a moment offers, if it offers anything.
   *
   * @param at the moment
   */
  record Accept(Duration at) implements Step {
    public Accept {
      requireNonNull(at, "at");
    }

    @Override
    public Decision apply(Session session) {
      Decision decision = session.decide(at);
      if (!decision.offers().isEmpty()) {
        session.follow(decision, decision.offers().get(0));
      }
      return decision;
    }

    @Override
    public String toString() {
      return Times.clock(at) + " accepted the first offer";
    }
  }

  /**
   * To ask what to do, and no more.
   *
   * @param at the moment that is asked about
   */
  record Ask(Duration at) implements Step {
    public Ask {
      requireNonNull(at, "at");
    }

    @Override
    public Decision apply(Session session) {
      return session.decide(at);
    }

    @Override
    public String toString() {
      return Times.clock(at) + " asked";
    }
  }
}
