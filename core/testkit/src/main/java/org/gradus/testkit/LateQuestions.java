package org.gradus.testkit;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableSet;
import java.util.Optional;
import java.util.TreeSet;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Verdict;

/** Whoever asks late misses nothing. */
final class LateQuestions implements Watch {

  private static final int HORIZON = 420;
  private static final int QUESTIONS = 24;

  private final TestScript test;

  LateQuestions(TestScript test) {
    this.test = test;
  }

  @Override
  public void before(LiveSession session, Step step) {
    Luck luck = test.luck(step.at());
    if (!luck.chance(0.15)) {
      return;
    }
    Optional<Decision> stop = Optional.empty();
    for (Duration moment : moments(session, luck)) {
      Decision now = session.decide(moment);
      if (stop.isPresent()) {
        Watch.demand(keeps(stop.get(), now), now + "\n       after: " + stop.get());
      } else if (now.verdict() instanceof Verdict.Stop) {
        stop = Optional.of(now);
      }
    }
  }

  // Seconds, halves of them, and the moments that rules name, counted from wherever clocks run.
  private NavigableSet<Duration> moments(LiveSession session, Luck luck) {
    Duration now = session.now();
    NavigableSet<Duration> moments = new TreeSet<>();
    for (int i = 0; i < QUESTIONS; i++) {
      moments.add(now.plusMillis(500L * luck.below(2 * HORIZON)));
    }
    for (Duration begun : beginnings(session.events())) {
      for (double figure : test.panel().times()) {
        Duration named = begun.plusMillis(Math.round(figure * 1000));
        if (luck.chance(0.3)
            && named.compareTo(now) >= 0
            && named.compareTo(now.plusSeconds(HORIZON)) < 0) {
          moments.add(named);
        }
      }
    }
    moments.add(now.plusSeconds(HORIZON));
    return moments;
  }

  private static List<Duration> beginnings(List<Event> events) {
    List<Duration> acts = new ArrayList<>();
    for (Event event : events) {
      if (event instanceof Event.Followed || event instanceof Event.Overridden) {
        acts.add(event.at());
      }
    }
    return acts;
  }

  // One that takes the load away at once may come before one that lowers it, and one of a rule
  // before one that is given for want of a decision.
  private static boolean keeps(Decision before, Decision now) {
    boolean same = Stops.rule(before).equals(Stops.rule(now));
    return now.verdict() instanceof Verdict.Stop stop
        && (same
            || Stops.isUndecided(before)
            || (stop.rest() && !((Verdict.Stop) before.verdict()).rest()));
  }
}
