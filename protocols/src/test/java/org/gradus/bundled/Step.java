package org.gradus.bundled;

import java.time.Duration;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Session;

/** Something done to a session that can be done to another one in the same way. */
sealed interface Step {

  /** When it is done. */
  Duration at();

  /** Does it, and gives the decision that was answered or acted upon. */
  Decision apply(Session session);

  /** To tell something, or to override. */
  record Tell(Event event) implements Step {
    @Override
    public Duration at() {
      return event.at();
    }

    @Override
    public Decision apply(Session session) {
      if (event instanceof Event.Read read) {
        return session.recordTaken(
            read.at(), read.taken(), read.readings().toArray(new Reading[0]));
      } else if (event instanceof Event.Reported reported) {
        return reported.grade().isPresent()
            ? session.report(reported.at(), reported.sign(), reported.grade().getAsInt())
            : session.report(reported.at(), reported.sign());
      } else if (event instanceof Event.Withdrawn withdrawn) {
        return session.withdraw(withdrawn.at(), withdrawn.sign(), withdrawn.reason());
      } else if (event instanceof Event.LoadSet set) {
        return session.loadSet(set.at(), set.load());
      } else if (event instanceof Event.Overridden overridden) {
        Decision shown = session.decide(overridden.at());
        session.override(overridden.at(), overridden.verdict(), overridden.reason());
        return shown;
      } else if (event instanceof Event.Abandoned abandoned) {
        Decision shown = session.decide(abandoned.at());
        session.abandon(abandoned.at(), abandoned.reason());
        return shown;
      }
      throw new IllegalArgumentException("to be followed, not told: " + event);
    }
  }

  /** To follow the decision of a moment. */
  record Follow(Duration at) implements Step {
    @Override
    public Decision apply(Session session) {
      Decision decision = session.decide(at);
      session.follow(decision);
      return decision;
    }
  }

  /** To accept the first thing that is offered, if anything is. */
  record Accept(Duration at) implements Step {
    @Override
    public Decision apply(Session session) {
      Decision decision = session.decide(at);
      if (!decision.offers().isEmpty()) {
        session.follow(decision, decision.offers().get(0));
      }
      return decision;
    }
  }

  /** To ask only. */
  record Ask(Duration at) implements Step {
    @Override
    public Decision apply(Session session) {
      return session.decide(at);
    }
  }
}
