package org.gradus.testkit;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Verdict;

/** Nothing is asked for in vain. */
final class Asked implements Watch {

  private final TestScript test;
  private final Panel panel;
  // A reading in the very second in which another load was set says nothing about that load.
  private Optional<Duration> loadSet = Optional.empty();

  Asked(TestScript test) {
    this.test = test;
    this.panel = test.panel();
  }

  @Override
  public void before(LiveSession session, Step step) {
    Luck luck = test.luck(step.at());
    if (session.phase() == Phase.STAGE || session.phase() == Phase.RECOVERY) {
      Duration at = session.now().plusSeconds(luck.chance(0.5) ? 0 : luck.below(150));
      Decision decision = session.decide(at);
      if (decision.verdict() instanceof Verdict.Measure measure
          && loadSet.filter(at::equals).isEmpty()) {
        look(session, decision, measure, new BodyReadings(panel, luck));
      }
    }
  }

  @Override
  public void after(Moment moment) {
    moment
        .told()
        .filter(event -> event instanceof Event.LoadSet)
        .ifPresent(set -> loadSet = Optional.of(set.at()));
  }

  private static void look(
      LiveSession session, Decision decision, Verdict.Measure measure, BodyReadings body) {
    Duration at = decision.at();
    Watch.demand(!measure.gaps().isEmpty(), decision + " names nothing");
    List<String> now = new ArrayList<>();
    for (Gap gap : measure.gaps()) {
      if (gap.settle() instanceof Gap.Settle.Now) {
        now.add(gap.subject());
      } else if (gap.settle() instanceof Gap.Settle.At later) {
        boolean waits =
            later.time().compareTo(at) > 0
                && measure.until().filter(end -> later.time().compareTo(end) <= 0).isPresent();
        Watch.demand(waits, decision + " asks for " + gap + " at a time it does not wait for");
      } else {
        Watch.demand(false, decision + " asks for " + gap + ", which nothing can settle");
      }
    }
    Optional<Decision> told = tell(session.fork(), now, at, body);
    if (told.isPresent() && told.get().verdict() instanceof Verdict.Measure still) {
      for (Gap gap : still.gaps()) {
        boolean again = gap.settle() instanceof Gap.Settle.Now && now.contains(gap.subject());
        Watch.demand(
            !again || gap.cause() == Gap.Cause.UNCONFIRMED,
            decision + " asks for " + gap + " again after it was read: " + told.get());
      }
    }
  }

  // What was read at this very second already cannot be read once more.
  private static Optional<Decision> tell(
      LiveSession session, List<String> signals, Duration at, BodyReadings body) {
    List<Reading> readings = signals.stream().distinct().map(body::sensible).toList();
    try {
      return signals.isEmpty()
          ? Optional.empty()
          : Optional.of(session.apply(new Step.Tell(new Event.Read(readings, at, at))));
    } catch (ReadingRefused refused) {
      return Optional.empty();
    }
  }
}
