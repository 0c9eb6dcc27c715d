package org.gradus.testkit;

import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.measured;
import static org.gradus.session.Readings.pulse;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.gradus.diagnostic.GradusException;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * A random test by a grown protocol: sensible for the most part, so that it gets somewhere, with
 * slips, late readings, signs, amendments and a tester with a mind of his own.
 */
public final class GrownTest {

  /** Something that is done to a session, and can be done to another one in the same way. */
  public interface Step {
    /** Does it, and gives what was answered or acted upon. */
    Decision apply(Session session);
  }

  /** Looks on. */
  public interface Watcher {
    /** Something is about to be done. */
    default void before(Session session) {}

    /** Something was done. */
    default void done(Session session, Step step, Decision decision, boolean acted) {}

    /** Something was refused. */
    default void refused(Session session, Step step) {}
  }

  /** What was done, in order. */
  public final List<Step> steps = new ArrayList<>();

  /** The person. */
  public final Person person;

  private final Protocol protocol;
  private final Luck luck;
  private Duration now = Duration.ZERO;
  private int rate;

  /** A test that is still to be played. */
  public GrownTest(GrownProtocol grown, Random random) {
    this.protocol = grown.protocol();
    this.luck = new Luck(random);
    this.person = person();
    this.rate = luck.between(70, 100);
  }

  private Person person() {
    return Person.builder()
        .age(luck.chance(0.03) ? 70 : luck.between(18, 65))
        .sex(luck.oneOf(Person.Sex.FEMALE, Person.Sex.MALE))
        .cleared(true)
        .lowersHeartRate(luck.chance(0.02))
        .build();
  }

  /** Plays so many steps. */
  public Session play(int length, Watcher watcher) {
    Session session = Session.open(protocol, person);
    Duration start = Duration.ZERO;
    Reading[] told = answers();
    if (told.length > 0) {
      apply(session, s -> s.record(start, told), false, watcher);
    }
    apply(session, s -> follow(s, start), true, watcher);
    int afterwards = 2;
    while (steps.size() < length && afterwards > 0) {
      next(session, watcher);
      afterwards -= session.phase() == Phase.ENDED ? 1 : 0;
    }
    return session;
  }

  private void apply(Session session, Step step, boolean acts, Watcher watcher) {
    watcher.before(session);
    steps.add(step);
    try {
      Decision decision = step.apply(session);
      watcher.done(session, step, decision, acts);
    } catch (GradusException refused) {
      watcher.refused(session, step);
    }
  }

  private static Decision follow(Session session, Duration at) {
    Decision decision = session.decide(at);
    session.follow(decision);
    return decision;
  }

  private Reading[] answers() {
    List<Reading> answers = new ArrayList<>();
    answers.add(Readings.resting(heartRate(luck.between(55, 100))));
    if (luck.chance(0.9)) {
      answers.add(Readings.answer("fit", luck.chance(0.5)));
    }
    if (luck.chance(0.9)) {
      answers.add(Readings.answer("pace", Quantity.of(luck.between(2, 7), Unit.KMH)));
    }
    return answers.toArray(new Reading[0]);
  }

  private void next(Session session, Watcher watcher) {
    Verdict verdict = session.decide(now).verdict();
    boolean idle = verdict instanceof Verdict.Continue || verdict instanceof Verdict.Measure;
    Duration at = idle ? later(verdict) : now.plusSeconds(luck.below(4));
    now = at;
    int dice = luck.below(100);
    if (!idle && dice < 60) {
      apply(session, s -> dice < 6 ? accept(s, at) : follow(s, at), true, watcher);
    } else if (dice < 50) {
      Reading[] readings = readings();
      apply(session, s -> s.record(at, readings), false, watcher);
    } else if (dice < 60) {
      Reading[] readings = readings();
      Duration taken = at.minusSeconds(luck.below(75));
      apply(session, s -> s.recordTaken(at, taken, readings), false, watcher);
    } else if (dice < 66) {
      apply(session, sign(at), false, watcher);
    } else if (dice < 72) {
      apply(session, afterthought(session, at), false, watcher);
    } else if (dice < 75) {
      Loading load = load();
      apply(session, s -> s.loadSet(at, load), false, watcher);
    } else if (dice < 79) {
      apply(session, s -> s.done(at), false, watcher);
    } else if (dice < 83) {
      Verdict wanted = wanted(at);
      apply(session, s -> override(s, at, wanted), true, watcher);
    } else if (dice == 83 && luck.chance(0.2)) {
      apply(session, s -> abandon(s, at), true, watcher);
    } else if (dice < 90) {
      Duration asked = at.plusSeconds(luck.below(100) - 3);
      apply(session, s -> s.decide(asked), false, watcher);
    } else {
      apply(session, s -> follow(s, at), true, watcher);
    }
  }

  private Duration later(Verdict verdict) {
    if (verdict instanceof Verdict.Continue goOn && luck.chance(0.3)) {
      return goOn.until();
    } else if (verdict instanceof Verdict.Measure measure && luck.chance(0.4)) {
      return measure.until().orElse(now);
    }
    // Most readings come when they are due.
    long due = (now.toSeconds() / 30 + 1) * 30;
    return luck.chance(0.8) ? Duration.ofSeconds(due) : now.plusSeconds(luck.below(25));
  }

  private static Decision accept(Session session, Duration at) {
    Decision decision = session.decide(at);
    if (!decision.offers().isEmpty()) {
      session.follow(decision, decision.offers().get(0));
    }
    return decision;
  }

  private static Decision override(Session session, Duration at, Verdict verdict) {
    Decision shown = session.decide(at);
    session.override(at, verdict, "as I see it");
    return shown;
  }

  private static Decision abandon(Session session, Duration at) {
    Decision shown = session.decide(at);
    session.abandon(at, "enough");
    return shown;
  }

  /** Readings such as occur, a slip among them now and then. */
  Reading[] readings() {
    List<Reading> readings = new ArrayList<>();
    rate = Math.max(60, Math.min(200, rate + luck.between(-6, 10)));
    if (luck.chance(0.8)) {
      readings.add(
          luck.chance(0.2)
              ? pulse(Math.round(rate / 4f), Duration.ofSeconds(15))
              : heartRate(luck.chance(0.03) ? 400 : rate));
    }
    if (luck.chance(0.3)) {
      int systolic = luck.chance(0.1) ? luck.between(80, 260) : luck.between(120, 180);
      readings.add(Readings.pressure(systolic, luck.chance(0.02) ? systolic + 5 : 75));
    }
    if (luck.chance(0.2)) {
      Quantity effort = Quantity.of(luck.between(0, 11), Unit.ONE);
      readings.add(
          new Reading.Measured(
              "effort", effort, java.util.Optional.empty(), java.util.Optional.of("effort_0_10")));
    }
    if (readings.isEmpty()) {
      readings.add(measured("lactate", Quantity.of(2, Unit.ONE)));
    }
    return readings.toArray(new Reading[0]);
  }

  private Step sign(Duration at) {
    int dice = luck.below(10);
    if (dice < 3) {
      int grade = luck.below(6);
      return s -> s.report(at, "pain", grade);
    } else if (dice < 7) {
      return s -> s.report(at, "rail");
    } else if (dice < 8) {
      return s -> s.report(at, "dizzy");
    }
    String sign = luck.oneOf("rail", "pain", "hiccups");
    return s -> s.withdraw(at, sign, "it is over");
  }

  // Something told before is put right or taken back.
  private Step afterthought(Session session, Duration at) {
    int event = luck.below(session.events().size() + 1);
    if (luck.chance(0.5)) {
      int better = luck.between(70, 150);
      return s -> s.amend(at, event, heartRate(better), "misread");
    }
    String subject = luck.oneOf("heart_rate", "heart_rate", "rail", "dizzy", "done", "pain");
    return s -> s.reject(at, event, subject, "a mistake");
  }

  private Loading load() {
    return luck.chance(0.7)
        ? new Loading("speed", Quantity.of(luck.between(2, 6), Unit.KMH))
        : new Loading("grade", Quantity.of(luck.between(0, 8), Unit.PERCENT));
  }

  private Verdict wanted(Duration at) {
    String stage = luck.oneOf(protocol.stages()).id();
    return luck.oneOf(
        new Verdict.Ready(stage, List.of()),
        new Verdict.Continue(at, Agenda.EMPTY),
        new Verdict.Advance(stage),
        new Verdict.Advance(stage),
        new Verdict.Hold(at.plusSeconds(luck.between(10, 150))),
        new Verdict.Finish(),
        new Verdict.Stop(luck.chance(0.5), ""),
        new Verdict.End());
  }
}
