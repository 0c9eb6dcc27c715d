package org.gradus.testkit;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.gradus.diagnostic.GradusException;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** It matters when something was read, not when it was told. */
final class ToldLate implements Watch {

  private final TestScript test;
  private final Panel panel;

  ToldLate(TestScript test) {
    this.test = test;
    this.panel = test.panel();
  }

  @Override
  public void before(LiveSession session, Step step) {
    Luck luck = test.luck(step.at());
    if (session.phase() != Phase.STAGE || !luck.chance(0.1)) {
      return;
    }
    Duration now = session.now();
    if (session.decide(now).verdict() instanceof Verdict.Continue goOn) {
      Duration taken = now.plusSeconds(1 + luck.below(60));
      Duration told = taken.plusSeconds(1 + luck.below(10));
      if (told.compareTo(goOn.until()) < 0) {
        List<String> signals = luck.oneOf(panel.groups());
        List<Reading> readings = new ArrayList<>(new BodyReadings(panel, luck).read(signals));
        compare(session, readings, taken, told, goOn.until());
      }
    }
  }

  private static void compare(
      LiveSession session, List<Reading> readings, Duration taken, Duration told, Duration end) {
    LiveSession timely = session.fork();
    LiveSession late = session.fork();
    try {
      Decision answer = timely.apply(new Step.Tell(new Event.Read(readings, taken, taken)));
      // What waits for a second reading waits from when it is known to: no such thing here.
      if (!(answer.verdict() instanceof Verdict.Continue)) {
        return;
      }
      // A rule may hold for a second and stop the test by what was known in that second.
      if (changesBy(told, session) || changesBy(told, timely)) {
        return;
      }
      late.apply(new Step.Tell(new Event.Read(readings, taken, told)));
    } catch (GradusException refused) {
      return;
    }
    for (Duration at : List.of(told, end, end.plusSeconds(30))) {
      Decision one = timely.decide(at);
      Decision other = late.decide(at);
      if (waitsForASecond(one) || waitsForASecond(other)) {
        return;
      }
      String what = readings + " told late, at " + Times.clock(at) + " ";
      Watch.same(what + "the verdict", one.verdict(), other.verdict());
      Watch.same(what + "the reason", one.because(), other.because());
      Watch.same(what + "what is unchecked", one.unchecked(), other.unchecked());
    }
  }

  private static boolean changesBy(Duration told, LiveSession session) {
    return session
        .session()
        .changesAt(session.now())
        .filter(change -> change.compareTo(told) <= 0)
        .isPresent();
  }

  private static boolean waitsForASecond(Decision decision) {
    return decision.verdict() instanceof Verdict.Measure measure
        && measure.gaps().stream().anyMatch(gap -> gap.cause() == Gap.Cause.UNCONFIRMED);
  }
}
