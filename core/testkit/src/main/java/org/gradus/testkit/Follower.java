package org.gradus.testkit;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** Begins as the script does, then follows every verdict. */
final class Follower implements Watch {

  private final TestScript test;
  private final Panel panel;
  private final Luck luck;
  private final BodyReadings body;

  Follower(TestScript test) {
    this.test = test;
    this.panel = test.panel();
    this.luck = test.luck(Duration.ZERO);
    this.body = new BodyReadings(panel, luck);
  }

  @Override
  public void end(LiveSession unused) {
    LiveSession session = test.open();
    for (Step step : test.steps()) {
      if (session.phase() == Phase.BEFORE && step.at().isZero()) {
        attempt(session, step);
      }
    }
    if (session.phase() == Phase.STAGE) {
      follow(session, luck.share());
    }
  }

  private void follow(LiveSession session, double care) {
    Duration longest = test.protocol().longest();
    Duration now = Duration.ZERO;
    while (session.phase() != Phase.ENDED) {
      Watch.demand(
          now.compareTo(longest) <= 0,
          Times.clock(now)
              + " and not over; the longest test takes "
              + Times.clock(longest)
              + ". What was done: "
              + session.events());
      Optional<Duration> until = waitsUntil(session.decide(now));
      if (until.isEmpty()) {
        session.apply(new Step.Follow(now));
        continue;
      }
      Duration soon = now.plusSeconds(1 + luck.below(45));
      now = soon.compareTo(until.get()) < 0 ? soon : until.get();
      if (waitsUntil(session.decide(now)).isPresent() && luck.chance(care)) {
        List<String> some = luck.oneOf(panel.groups());
        attempt(session, new Step.Tell(new Event.Read(body.read(some), now, now)));
      }
    }
  }

  private static void attempt(LiveSession session, Step step) {
    try {
      session.apply(step);
    } catch (GradusException refused) {
      // A slip, or read twice.
    }
  }

  private static Optional<Duration> waitsUntil(Decision decision) {
    if (decision.verdict() instanceof Verdict.Continue goOn) {
      return Optional.of(goOn.until());
    }
    return decision.verdict() instanceof Verdict.Measure measure
        ? measure.until()
        : Optional.empty();
  }
}
