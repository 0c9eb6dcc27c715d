package org.gradus.testkit;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.diagnostic.GradusException;
import org.gradus.protocol.Person;
import org.gradus.protocol.Sign;
import org.gradus.rule.answer.Gap;
import org.gradus.session.Agenda;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;

/**
 * Makes up a test while it plays it: sensible for the most part, so that it gets somewhere, with
 * slips, late readings, signs, amendments and a tester with a mind of their own.
 */
final class ScriptWriter {

  private static final double[] YES = {0.02, 0.02, 0.1, 0.5, 0.95};
  private static final int INTERVIEWS = 15;

  private final Panel panel;
  private final Person person;
  private final Luck luck;
  private final BodyReadings body;
  private final Session session;
  private final List<Step> steps = new ArrayList<>();
  private Duration now = Duration.ZERO;
  private Optional<Decision> present = Optional.empty();

  ScriptWriter(Panel panel, Person person, Luck luck) {
    this.panel = panel;
    this.person = person;
    this.luck = luck;
    this.body = new BodyReadings(panel, luck);
    this.session = Session.open(panel.protocol(), person);
  }

  /** A test of at most so many steps. */
  TestScript write(int length) {
    begin();
    int afterwards = 2;
    while (steps.size() < length && afterwards > 0) {
      next();
      afterwards -= session.phase() == Phase.ENDED ? 1 : 0;
    }
    return TestScript.of(panel, person, luck.seed(), steps);
  }

  // Mostly somebody who may begin.
  private void begin() {
    Interview interview = new Interview(panel.protocol(), luck, body);
    Step told = tell(interview.told(YES[0]));
    boolean anyhow = luck.chance(0.08);
    for (int i = 1; i < INTERVIEWS && !anyhow && !isReadyAfter(told); i++) {
      told = tell(interview.told(YES[i % YES.length]));
    }
    if (told instanceof Step.Tell tell
        && tell.event() instanceof Event.Read read
        && !read.readings().isEmpty()) {
      apply(told);
    }
    apply(new Step.Follow(now));
  }

  private boolean isReadyAfter(Step told) {
    try {
      return told.apply(session.fork()).verdict() instanceof Verdict.Ready;
    } catch (GradusException refused) {
      return false;
    }
  }

  private Step tell(List<Reading> readings) {
    return new Step.Tell(new Event.Read(readings, now, now));
  }

  private void apply(Step step) {
    steps.add(step);
    present = Optional.empty();
    try {
      Decision answer = step.apply(session);
      boolean current = answer.event() == session.events().size() && answer.at().equals(now);
      present = Optional.of(answer).filter(some -> current);
    } catch (GradusException refused) {
      // That too belongs to a test.
    }
  }

  private void next() {
    Decision decision = present.orElseGet(() -> session.decide(now));
    Verdict verdict = decision.verdict();
    boolean idle = verdict instanceof Verdict.Continue || verdict instanceof Verdict.Measure;
    int dice = luck.below(100);
    if (!idle && dice < 60) {
      now = now.plusSeconds(luck.below(4));
      apply(dice < 6 ? new Step.Accept(now) : new Step.Follow(now));
      return;
    }
    Optional<Agenda.Item> item = item(decision);
    Duration at = idle ? later(verdict, item) : now.plusSeconds(luck.below(4));
    now = at;
    apply(step(dice, at, item.map(Agenda.Item::names).or(() -> missing(verdict))));
  }

  private Step step(int dice, Duration at, Optional<List<String>> due) {
    if (dice < 56) {
      return new Step.Tell(new Event.Read(readings(due), at, at));
    } else if (dice < 64) {
      Duration taken = at.minusSeconds(luck.below(75));
      return new Step.Tell(new Event.Read(readings(due), taken, at));
    } else if (dice < 67) {
      return new Step.Tell(sign(at));
    } else if (dice < 71) {
      return new Step.Tell(afterthought(at));
    } else if (dice < 74) {
      return load(at).<Step>map(Step.Tell::new).orElseGet(() -> new Step.Ask(at));
    } else if (dice < 77 || (dice < 81 && lastsUntilDone())) {
      Duration reached = luck.chance(0.7) ? at : at.minusSeconds(luck.below(20));
      return new Step.Tell(new Event.Done(reached, at));
    } else if (dice < 84) {
      return new Step.Tell(new Event.Overridden(wanted(at), "as I see it", at));
    } else if (dice == 85 && luck.chance(0.2)) {
      return new Step.Tell(new Event.Abandoned("enough", at));
    } else if (dice < 91) {
      return new Step.Ask(at.plusSeconds(luck.below(100) - 3));
    }
    return new Step.Follow(at);
  }

  private boolean lastsUntilDone() {
    return panel.protocol().stages().stream().anyMatch(stage -> stage.untilDone());
  }

  // Most readings come when they are due.
  private Duration later(Verdict verdict, Optional<Agenda.Item> item) {
    if (item.isPresent() && luck.chance(0.75)) {
      Duration near = item.get().due().plusSeconds(luck.chance(0.7) ? 0 : luck.between(-15, 30));
      return near.compareTo(now) > 0 ? near : now;
    } else if (verdict instanceof Verdict.Continue goOn && luck.chance(0.4)) {
      return goOn.until();
    } else if (verdict instanceof Verdict.Measure measure && luck.chance(0.4)) {
      return measure.until().orElse(now);
    }
    return now.plusSeconds(luck.below(25));
  }

  // What is to be read next.
  private Optional<Agenda.Item> item(Decision decision) {
    boolean waits =
        decision.verdict() instanceof Verdict.Continue
            || (decision.verdict() instanceof Verdict.Measure && session.phase() != Phase.BEFORE);
    List<Agenda.Item> items = waits ? decision.agenda().items() : List.of();
    return items.stream().filter(item -> item.state() != Agenda.State.MISSED).findFirst();
  }

  private Optional<List<String>> missing(Verdict verdict) {
    List<String> gaps =
        verdict instanceof Verdict.Measure measure
            ? measure.gaps().stream()
                .map(Gap::subject)
                .filter(panel.protocol().instruments().signals()::containsKey)
                .distinct()
                .toList()
            : List.of();
    return gaps.isEmpty() ? Optional.empty() : Optional.of(gaps);
  }

  private List<Reading> readings(Optional<List<String>> due) {
    List<Reading> readings =
        new ArrayList<>(
            body.read(
                due.filter(some -> luck.chance(0.85)).orElseGet(() -> luck.oneOf(panel.groups()))));
    if (luck.chance(0.15)) {
      body.read(luck.oneOf(panel.groups())).stream()
          .filter(more -> readings.stream().noneMatch(r -> r.subject().equals(more.subject())))
          .forEach(readings::add);
    }
    return readings;
  }

  private Event sign(Duration at) {
    List<Sign> signs = List.copyOf(panel.protocol().instruments().signs().values());
    if (signs.isEmpty() || luck.chance(0.05)) {
      return new Event.Reported("hiccups", OptionalInt.empty(), at);
    }
    Sign sign = luck.oneOf(signs);
    if (luck.chance(0.2)) {
      return new Event.Withdrawn(sign.name(), "it is over", at);
    }
    OptionalInt grade =
        sign.top().isPresent()
            ? OptionalInt.of(luck.below(sign.top().getAsInt() + 2))
            : OptionalInt.empty();
    return new Event.Reported(sign.name(), grade, at);
  }

  // Something told before is put right or taken back.
  private Event afterthought(Duration at) {
    List<Event> events = session.events();
    int number = 1 + luck.below(events.size() + 1);
    Optional<Event> event =
        number <= events.size() ? Optional.of(events.get(number - 1)) : Optional.empty();
    if (event.orElse(null) instanceof Event.Read read && !read.readings().isEmpty()) {
      Reading wrong = luck.oneOf(read.readings());
      boolean isSignal = panel.protocol().instruments().signals().containsKey(wrong.subject());
      if (isSignal && luck.chance(0.6)) {
        Reading better = body.sensible(wrong.subject());
        Reading placed =
            wrong instanceof Reading.Baseline baseline
                ? new Reading.Baseline(baseline.posture(), better)
                : better;
        return new Event.Amended(number, List.of(placed), "misread", at);
      }
      return new Event.Rejected(number, wrong.subject(), "a mistake", at);
    } else if (event.orElse(null) instanceof Event.Reported reported) {
      return new Event.Rejected(number, reported.sign(), "a mistake", at);
    }
    return new Event.Rejected(number, Event.Done.SUBJECT, "a mistake", at);
  }

  // Nearly what is prescribed.
  private Optional<Event> load(Duration at) {
    List<Loading> set = session.outcome().load();
    if (set.isEmpty()) {
      return Optional.empty();
    }
    Loading one = luck.oneOf(set);
    double factor = 0.7 + 0.6 * luck.share();
    Quantity other = Quantity.ofBase(factor * one.value().base(), one.value().unit()).rounded(2);
    return Optional.of(new Event.LoadSet(new Loading(one.name(), other), at));
  }

  private Verdict wanted(Duration at) {
    String stage = luck.oneOf(panel.protocol().stages()).id();
    return luck.oneOf(
        new Verdict.Ready(stage, List.of()),
        new Verdict.Defer(List.of()),
        new Verdict.Continue(at),
        new Verdict.Advance(stage),
        new Verdict.Advance(stage),
        new Verdict.Hold(at.plusSeconds(luck.between(-20, 150))),
        new Verdict.Finish(),
        new Verdict.Stop(luck.chance(0.5), ""),
        new Verdict.End());
  }
}
