package org.gradus.trial;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.gradus.capacity.Headline;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Person;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Signal;
import org.gradus.rule.check.Type;
import org.gradus.rule.plan.Gap;
import org.gradus.session.Agenda;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.trial.Body.Load;
import org.gradus.trial.Run.End;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** A tester without moods: takes every reading when it is due and follows every decision. */
final class Tester {

  private static final String UNDECIDED = "undecided";
  private static final Duration AGAIN = Duration.ofSeconds(15);
  private static final int MOST_RETAKES = 40;

  private final Protocol protocol;
  private final Counting counting;
  private final Body body;
  private final Session session;

  private int decisions;
  private int marginal;
  private int holds;

  private Tester(Protocol protocol, Counting counting, Body body) {
    this.protocol = protocol;
    this.counting = counting;
    this.body = body;
    this.session = Session.open(protocol, person(body));
  }

  static Run test(
      Protocol protocol,
      Demands demands,
      Counting counting,
      Traits traits,
      SplittableRandom random) {
    return new Tester(protocol, counting, new Body(traits, demands, random)).test();
  }

  private static Person person(Body body) {
    return Person.builder()
        .age((int) body.of(Trait.AGE))
        .sex(body.of(Trait.FEMALE) == 1 ? Person.Sex.FEMALE : Person.Sex.MALE)
        .mass(Quantity.of(body.of(Trait.MASS), Unit.KILOGRAM))
        .cleared(true)
        .lowersHeartRate(false)
        .build();
  }

  private Run test() {
    List<Reading> told = new ArrayList<>();
    protocol.instruments().questions().values().forEach(question -> answer(question, told));
    protocol.baselines().forEach(line -> baseline(line, told));
    Decision decision = session.record(Duration.ZERO, told.toArray(Reading[]::new));
    if (!(decision.verdict() instanceof Verdict.Ready ready)) {
      return run(decision, End.DEFERRED, Duration.ZERO);
    }
    session.follow(decision);
    set(ready.loads(), Duration.ZERO);
    return exercise();
  }

  private Run exercise() {
    Duration start = Duration.ZERO;
    Decision decision = session.decide(Duration.ZERO);
    for (int retakes = 0; retakes < MOST_RETAKES; ) {
      Verdict verdict = decision.verdict();
      if (verdict instanceof Verdict.Continue goOn) {
        decision = through(goOn);
      } else if (verdict instanceof Verdict.Measure measure) {
        decision = again(measure, decision.at());
        retakes++;
      } else {
        decisions++;
        marginal += decision.firmness().isFirm() ? 0 : 1;
        holds += verdict instanceof Verdict.Hold ? 1 : 0;
        session.follow(decision);
        if (session.phase() != Phase.STAGE) {
          return run(decision, end(decision), decision.at().minus(start));
        }
        if (verdict instanceof Verdict.Advance advance) {
          set(advance.loads(), decision.at());
        }
        decision = session.decide(decision.at());
      }
    }
    throw new IllegalStateException("no end of " + protocol + " after " + decision);
  }

  private static End end(Decision decision) {
    boolean open = decision.because().map(Because::rule).filter(UNDECIDED::equals).isPresent();
    return open
        ? End.UNDECIDED
        : decision.verdict() instanceof Verdict.Stop ? End.STOPPED : End.FINISHED;
  }

  // Everything that is due up to the next decision, unless something comes between.
  private Decision through(Verdict.Continue goOn) {
    List<Agenda.Item> items = new ArrayList<>(goOn.agenda().items());
    items.sort(Comparator.comparing(Agenda.Item::due));
    for (int i = 0; i < items.size(); ) {
      Duration due = items.get(i).due();
      List<Reading> readings = new ArrayList<>();
      for (; i < items.size() && items.get(i).due().equals(due); i++) {
        for (String signal : items.get(i).signals()) {
          reading(signal, due).ifPresent(readings::add);
        }
      }
      boolean ahead = items.get(i - 1).state() != Agenda.State.MISSED;
      if (ahead && due.compareTo(goOn.until()) <= 0 && !readings.isEmpty()) {
        Decision decision = session.record(due, readings.toArray(Reading[]::new));
        if (!(decision.verdict() instanceof Verdict.Continue)) {
          return decision;
        }
      }
    }
    return session.decide(goOn.until());
  }

  private Decision again(Verdict.Measure measure, Duration now) {
    Duration limit = measure.until().orElse(now.plus(AGAIN));
    Duration wanted = now.plus(AGAIN);
    Duration at = wanted.compareTo(limit) < 0 ? wanted : limit;
    List<Reading> readings = new ArrayList<>();
    for (String signal : measure.gaps().stream().map(Gap::subject).distinct().toList()) {
      if (protocol.instruments().signals().containsKey(signal)) {
        reading(signal, at).ifPresent(readings::add);
      }
    }
    return readings.isEmpty() || at.equals(now)
        ? session.decide(at)
        : session.record(at, readings.toArray(Reading[]::new));
  }

  private void set(List<Loading> loads, Duration at) {
    body.set(loads.stream().map(load -> new Load(load.name(), load.value().base())).toList(), at);
  }

  private Optional<Reading> reading(String name, Duration at) {
    Signal signal = protocol.instruments().signal(name);
    if (signal.type() instanceof Type.Choice choice) {
      boolean runs =
          session.outcome().load().stream()
              .anyMatch(
                  load ->
                      load.value().kind() == Kind.SPEED
                          && load.value().base() >= body.of(Trait.RUNS_FROM));
      return Optional.of(Readings.chosen(name, choice.options().get(gait(choice.options(), runs))));
    }
    Kind kind = ((Type.Measure) signal.type()).kind();
    if (kind == Kind.HEART_RATE) {
      return Optional.of(rate(name, at));
    } else if (kind == Kind.PRESSURE) {
      double pressure = signal.below().isPresent() ? body.diastolic() : body.systolic(at);
      return Optional.of(Readings.measured(name, stepped(signal, pressure, Unit.MMHG)));
    }
    return rating(name, at);
  }

  // Who runs says so; any other choice is answered with its first word.
  static int gait(List<String> words, boolean runs) {
    int running = words.indexOf("running");
    return runs && running >= 0 ? running : 0;
  }

  private Reading rate(String name, Duration at) {
    if (counting instanceof Counting.Exact) {
      double rate = Math.rint(body.trueRate(at) * 100) / 100;
      return new Reading.Measured(
          name,
          Quantity.of(rate, Unit.BPM),
          Optional.of(Quantity.of(0.01, Unit.BPM)),
          Optional.empty());
    }
    Duration stretch =
        counting instanceof Counting.For counted
            ? counted.stretch()
            : protocol.schedule().lineOf(name).map(MeasureLine::over).orElse(Duration.ZERO);
    if (stretch.isZero()) {
      return Readings.measured(name, Quantity.of(Math.rint(body.rate(at)), Unit.BPM));
    }
    Reading.Measured pulse = (Reading.Measured) Readings.pulse(body.beats(at, stretch), stretch);
    return new Reading.Measured(name, pulse.value(), pulse.step(), Optional.empty());
  }

  private static Quantity stepped(Signal signal, double value, Unit unit) {
    double step = signal.step().map(Quantity::base).orElse(1.0);
    return Quantity.of(Math.rint(value / step) * step, unit);
  }

  // Ratings rise with the share of the reserve that is used.
  private Optional<Reading> rating(String name, Duration at) {
    Optional<Scale> scale =
        protocol
            .schedule()
            .lineOf(name)
            .flatMap(MeasureLine::scale)
            .flatMap(word -> Optional.ofNullable(protocol.instruments().scales().get(word)));
    return scale.map(
        on -> {
          double share = Math.max(0, Math.min(1, body.effort(at)));
          double steps = Math.rint(share * (on.high() - on.low()) / on.step());
          return new Reading.Measured(
              name,
              Quantity.of(on.low() + steps * on.step(), Unit.ONE),
              Optional.empty(),
              Optional.of(on.name()));
        });
  }

  // Nothing speaks against the test, and nothing is unusual.
  private static void answer(Question question, List<Reading> told) {
    if (question.type().equals(Type.CONDITION)) {
      told.add(Readings.answer(question.name(), false));
    } else if (question.type() instanceof Type.Choice choice) {
      told.add(Readings.chosen(question.name(), choice.options().get(0)));
    } else if (!question.options().isEmpty()) {
      told.add(Readings.answer(question.name(), question.options().get(0).value()));
    } else if (question.fallback().isEmpty() && question.range().isPresent()) {
      Quantity low = question.range().get().low();
      double middle = (low.base() + question.range().get().high().base()) / 2;
      told.add(Readings.answer(question.name(), Quantity.ofBase(middle, low.unit())));
    }
  }

  private void baseline(BaselineLine line, List<Reading> told) {
    for (String name : line.signals()) {
      reading(name, Duration.ZERO)
          .ifPresent(
              reading ->
                  told.add(
                      line.posture() == Posture.RESTING
                          ? Readings.resting(reading)
                          : Readings.upright(reading)));
    }
  }

  private Run run(Decision decision, End end, Duration exercise) {
    Optional<Headline> best =
        end == End.DEFERRED ? Optional.empty() : Headline.of(session.outcome());
    return new Run(
        body.of(Trait.FEMALE) == 1,
        (int) body.of(Trait.AGE),
        Quantity.of(body.of(Trait.CAPACITY), Unit.ML_PER_KG_PER_MINUTE),
        end,
        decision.because().map(Because::rule).orElse(decision.verdict().word()),
        exercise,
        decisions,
        marginal,
        holds,
        best.map(Headline::vo2max),
        best.flatMap(Headline::interval));
  }
}
