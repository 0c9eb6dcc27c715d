package org.gradus.bundled;

import static org.gradus.session.Times.seconds;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import org.gradus.diagnostic.GradusException;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.testkit.Step;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * A random test: sensible for the most part, so that it gets somewhere, with slips, late readings,
 * signs and a tester with a mind of his own. What was done is kept, to be done again.
 */
final class Play {

  final Protocol protocol;
  final Person person;
  final List<Step> steps = new ArrayList<>();

  private final Luck luck;
  private Duration now = Duration.ZERO;
  private Duration stageStart = Duration.ZERO;

  private Play(Random random) {
    this.luck = new Luck(random);
    this.protocol = luck.protocol();
    this.person = luck.person();
  }

  /** Looks on while a test is played. */
  interface Watcher {

    /** Something is about to be done. */
    default void before(Session session, Step step) {}

    /** Something was done. */
    default void done(Session session, Step step, Decision decision) {}

    /** Something was refused. */
    default void refused(Session session, Step step) {}
  }

  /** Plays a test of so many steps. */
  static Play of(Random random, int length, Watcher watcher) {
    Play play = new Play(random);
    Session session = Session.open(play.protocol, play.person);
    play.apply(
        session,
        new Step.Tell(
            new Event.Read(
                List.of(play.luck.beforeTheTest()).stream()
                    .flatMap(reading -> reading.parts().stream())
                    .toList(),
                Duration.ZERO,
                Duration.ZERO)),
        watcher);
    play.apply(session, new Step.Follow(Duration.ZERO), watcher);
    int afterwards = 3;
    while (play.steps.size() < length && afterwards > 0) {
      play.apply(session, play.next(session), watcher);
      afterwards -= session.phase() == Phase.ENDED ? 1 : 0;
    }
    return play;
  }

  static Play of(Random random, int length) {
    return of(random, length, new Watcher() {});
  }

  private void apply(Session session, Step step, Watcher watcher) {
    watcher.before(session, step);
    steps.add(step);
    try {
      int passed = session.outcome().stages().size();
      Decision decision = step.apply(session);
      now = step.at().compareTo(now) > 0 ? step.at() : now;
      boolean begun = decision.phase() == Phase.BEFORE && session.phase() == Phase.STAGE;
      if (begun || session.outcome().stages().size() > passed) {
        stageStart = step.at();
      }
      watcher.done(session, step, decision);
    } catch (GradusException refused) {
      watcher.refused(session, step);
    }
  }

  private Step next(Session session) {
    Verdict verdict = session.decide(now).verdict();
    boolean idle = verdict instanceof Verdict.Continue || verdict instanceof Verdict.Measure;
    if (!idle && luck.chance(0.6)) {
      return luck.chance(0.1) ? new Step.Accept(now) : new Step.Follow(now);
    }
    Duration at = later(verdict);
    double dice = luck.below(1000) / 1000.0;
    if (dice < 0.60) {
      return new Step.Tell(new Event.Read(luck.readings(), at, at));
    } else if (dice < 0.70) {
      Duration taken = at.minus(seconds(luck.below(60)));
      return new Step.Tell(new Event.Read(luck.readings(), taken, at));
    } else if (dice < 0.74) {
      return new Step.Tell(new Event.Read(List.of(luck.slip()), at, at));
    } else if (dice < 0.78) {
      return new Step.Tell(sign(at));
    } else if (dice < 0.80) {
      return new Step.Tell(new Event.Withdrawn(luck.sign(), "over", at));
    } else if (dice < 0.82) {
      Quantity speed = Quantity.of(luck.chance(0.5) ? 1.7 : 2.0, Unit.MPH);
      return new Step.Tell(new Event.LoadSet(new Loading("speed", speed), at));
    } else if (dice < 0.86) {
      return new Step.Tell(new Event.Overridden(verdict(at), "as I see it", at));
    } else if (dice < 0.862) {
      return new Step.Tell(new Event.Abandoned("enough", at));
    } else if (dice < 0.90) {
      // Now and then before what was told last.
      return new Step.Ask(now.minus(seconds(luck.below(4) - 2)));
    }
    return new Step.Follow(at);
  }

  // Most often when something is due.
  private Duration later(Verdict verdict) {
    if (verdict instanceof Verdict.Continue goOn && luck.chance(0.1)) {
      return goOn.until();
    } else if (verdict instanceof Verdict.Measure measure && luck.chance(0.1)) {
      return measure.until().orElse(now).plus(seconds(luck.below(2)));
    } else if (luck.chance(0.25)) {
      return now.plus(seconds(luck.below(20)));
    }
    long minutes = now.minus(stageStart).toMinutes() + (luck.chance(0.9) ? 1 : 2);
    Duration due = stageStart.plus(Duration.ofMinutes(minutes));
    Duration near = due.plus(seconds(luck.chance(0.6) ? 0 : luck.below(31) - 15));
    return near.compareTo(now) > 0 ? near : due;
  }

  private Event sign(Duration at) {
    if (luck.chance(0.4)) {
      String graded = luck.chance(0.5) ? "breathless" : "leg_pain";
      return new Event.Reported(graded, OptionalInt.of(luck.below(6) - 1), at);
    }
    String name = luck.chance(0.1) ? "hiccups" : luck.sign();
    return new Event.Reported(name, OptionalInt.empty(), at);
  }

  private Verdict verdict(Duration at) {
    return luck.oneOf(
        List.of(
            new Verdict.Ready("walk_" + luck.below(9), List.of()),
            new Verdict.Defer(List.of()),
            new Verdict.Continue(at),
            new Verdict.Advance("walk_" + luck.below(9)),
            new Verdict.Advance("walk_" + luck.below(9)),
            new Verdict.Hold(at.plus(seconds(luck.below(180) - 30))),
            new Verdict.Finish(),
            new Verdict.Stop(luck.chance(0.5), ""),
            new Verdict.End()));
  }

  /** Everything that was done, one in a line. */
  @Override
  public String toString() {
    StringBuilder text = new StringBuilder();
    steps.forEach(step -> text.append(step).append('\n'));
    return text.toString();
  }
}
