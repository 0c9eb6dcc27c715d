package org.gradus.trial;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.TreeMap;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Headline;
import org.gradus.capacity.Result;
import org.gradus.protocol.BaselineLine;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.Person;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Signal;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Timing;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Demand;
import org.gradus.session.Admission;
import org.gradus.session.Agenda;
import org.gradus.session.Because;
import org.gradus.session.Decision;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.trial.Run.End;
import org.gradus.trial.VirtualBody.Load;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * A tester without moods: takes every reading when it is due and follows every decision. What a
 * protocol refuses of a virtual body's readings counts as not read; a trial of a file that loads
 * never ends with a refusal.
 */
final class Tester {

  private static final String UNDECIDED = "undecided";
  private static final Duration AGAIN = Duration.ofSeconds(15);
  private static final Duration ONE_SECOND = Duration.ofSeconds(1);
  // How finely a body follows a load that changes by itself.
  private static final Duration A_WHILE = Duration.ofSeconds(10);
  private static final String EXHAUSTED = "exhausted";

  private final Protocol protocol;
  private final Counting counting;
  private final VirtualBody body;
  private final Duration longest;
  private final Session session;

  // When each signal was told last: a second reading of one moment is none.
  private final Map<String, Duration> told = new HashMap<>();

  private Optional<Stage> stage = Optional.empty();
  private Optional<Duration> doneAt = Optional.empty();
  private Duration moved = Duration.ZERO;
  private List<Load> set = List.of();
  private boolean working;

  private int decisions;
  private int marginal;
  private int holds;

  private Tester(Protocol protocol, Counting counting, VirtualBody body, Duration longest) {
    this.protocol = protocol;
    this.longest = longest;
    this.counting = counting;
    this.body = body;
    this.session = Session.open(protocol, person(body));
  }

  static Run test(
      Protocol protocol,
      Demands demands,
      Physiology physiology,
      Counting counting,
      Traits traits,
      SplittableRandom random) {
    VirtualBody body = new VirtualBody(traits, demands, physiology, random);
    return new Tester(protocol, counting, body, demands.longest()).test();
  }

  private static Person person(VirtualBody body) {
    return Person.builder()
        .age((int) body.of(Trait.AGE))
        .sex(body.of(Trait.FEMALE) == 1 ? Person.Sex.FEMALE : Person.Sex.MALE)
        .mass(Quantity.of(body.of(Trait.MASS), Unit.KILOGRAM))
        .height(Quantity.of(body.of(Trait.HEIGHT), Unit.METRE))
        .cleared(true)
        .lowersHeartRate(false)
        .build();
  }

  // Where a no speaks against the test, as with the supervision that rules ask for, it is a yes.
  private Optional<List<Reading>> otherwise(Verdict.Defer defer) {
    Set<String> ids = new HashSet<>();
    defer.reasons().forEach(because -> ids.add(because.rule()));
    List<Reading> yes = new ArrayList<>();
    protocol.rules().before().stream()
        .filter(rule -> ids.contains(rule.id()))
        .flatMap(rule -> rule.rule().condition().stream())
        .flatMap(when -> when.demands().stream())
        .map(Demand::subject)
        .distinct()
        .filter(name -> protocol.instruments().questions().containsKey(name))
        .filter(name -> protocol.instruments().question(name).type().equals(Type.CONDITION))
        .sorted()
        .forEach(name -> yes.add(Readings.answer(name, true)));
    return yes.isEmpty() ? Optional.empty() : Optional.of(yes);
  }

  private Run test() {
    List<Reading> before = new ArrayList<>();
    protocol.instruments().questions().values().forEach(question -> answer(question, before));
    protocol.baselines().forEach(line -> baseline(line, before));
    Decision decision = tell(Duration.ZERO, before);
    if (decision.verdict() instanceof Verdict.Defer defer) {
      decision = otherwise(defer).map(told -> tell(Duration.ZERO, told)).orElse(decision);
    }
    if (!(decision.verdict() instanceof Verdict.Ready ready)) {
      return run(decision, End.DEFERRED, Duration.ZERO, Optional.empty());
    }
    Decision begun = session.follow(decision);
    begin(ready.stage(), Duration.ZERO);
    return exercise(begun);
  }

  private Run exercise(Decision begun) {
    Duration start = Duration.ZERO;
    Decision decision = begun;
    while (decision.at().compareTo(longest) <= 0) {
      Verdict verdict = decision.verdict();
      if (verdict instanceof Verdict.Continue goOn) {
        decision = goOn(decision, goOn.until());
      } else if (verdict instanceof Verdict.Measure measure) {
        decision = again(measure, decision.at());
      } else {
        decisions++;
        marginal += decision.firmness().isFirm() ? 0 : 1;
        holds += verdict instanceof Verdict.Hold ? 1 : 0;
        Decision done = session.follow(decision);
        if (done.phase() != Phase.STAGE) {
          Duration lasted = decision.at().minus(start);
          return run(decision, end(decision), lasted, recover(done));
        }
        if (verdict instanceof Verdict.Advance next) {
          begin(next.stage(), decision.at());
        } else if (verdict instanceof Verdict.Change same) {
          begin(same.stage(), decision.at());
        }
        decision = done;
      }
    }
    return run(decision, End.UNDECIDED, decision.at().minus(start), Optional.empty());
  }

  private void begin(String id, Duration at) {
    stage = protocol.stages().stream().filter(one -> one.id().equals(id)).findFirst();
    doneAt =
        stage
            .filter(Stage::untilDone)
            .flatMap(open -> body.done(protocol.id()).map(at::plus))
            .map(done -> earlier(done, at.plus(stage.orElseThrow().lasts()).minus(ONE_SECOND)));
    loads(at);
  }

  // To the end of recovery: with which word it ends, if there is any.
  private Optional<String> recover(Decision begun) {
    Decision decision = begun;
    stage = Optional.empty();
    doneAt = Optional.empty();
    loads(begun.at());
    while (decision.phase() == Phase.RECOVERY && decision.at().compareTo(longest) <= 0) {
      Verdict verdict = decision.verdict();
      if (verdict instanceof Verdict.Continue goOn) {
        decision = goOn(decision, goOn.until());
      } else if (verdict instanceof Verdict.Measure measure) {
        decision = again(measure, decision.at());
      } else {
        Decision done = session.follow(decision);
        if (done.phase() != Phase.RECOVERY) {
          return Optional.of(verdict.word());
        }
        decision = done;
      }
    }
    return Optional.empty();
  }

  private static Duration earlier(Duration one, Duration other) {
    return one.compareTo(other) <= 0 ? one : other;
  }

  // The body follows what is set up to a moment: also what changes by itself.
  private void move(Duration at) {
    boolean changes =
        stage.isEmpty() || stage.get().loads().stream().anyMatch(load -> load.ramp().isPresent());
    if (changes) {
      for (Duration time = moved.plus(A_WHILE); time.compareTo(at) < 0; time = time.plus(A_WHILE)) {
        loads(time);
      }
      loads(at);
    }
  }

  private void loads(Duration at) {
    List<Load> now =
        session.outcome().load(at).stream()
            .map(load -> new Load(load.name(), load.value().base()))
            .toList();
    // A stage that begins with the same load goes on; one without a load still asks for work.
    boolean works = stage.filter(one -> !one.pause()).isPresent();
    if (!now.equals(set) || works != working || moved.isZero()) {
      body.set(now, works, at);
    }
    working = works;
    set = now;
    moved = at;
  }

  private static End end(Decision decision) {
    boolean open = decision.because().map(Because::rule).filter(UNDECIDED::equals).isPresent();
    return open
        ? End.UNDECIDED
        : decision.verdict() instanceof Verdict.Stop ? End.STOPPED : End.FINISHED;
  }

  // Everything that is due up to the next decision, unless something comes between. What a retake
  // has made late is read at once.
  private Decision goOn(Decision decision, Duration until) {
    Duration now = decision.at();
    NavigableMap<Duration, Set<String>> wanted = new TreeMap<>();
    for (Agenda.Item item : decision.agenda().items()) {
      Duration at = later(item.due(), now);
      if (item.state() != Agenda.State.MISSED && at.compareTo(until) <= 0) {
        Set<String> names = wanted.computeIfAbsent(at, time -> new LinkedHashSet<>());
        item.readings().forEach(reading -> names.add(reading.name()));
      }
    }
    boolean news = false;
    Duration last = now;
    for (Map.Entry<Duration, Set<String>> due : wanted.entrySet()) {
      Optional<Decision> ended = ended(last, due.getKey());
      if (ended.isPresent()) {
        return ended.get();
      }
      move(due.getKey());
      List<Reading> readings = readings(due.getValue(), due.getKey());
      if (!readings.isEmpty()) {
        news = true;
        last = due.getKey();
        Decision answer = tell(due.getKey(), readings);
        if (!(answer.verdict() instanceof Verdict.Continue)) {
          return answer;
        }
      }
    }
    Duration then = news ? later(until, now) : next(until, now);
    Optional<Decision> ended = ended(last, then);
    if (ended.isPresent()) {
      return ended.get();
    }
    move(then);
    return session.decide(then);
  }

  // What ends a stage up to a moment, and after what was told last: it is done, or the person
  // cannot go on.
  private Optional<Decision> ended(Duration now, Duration before) {
    move(before);
    Optional<Duration> exhausted =
        protocol.instruments().signs().containsKey(EXHAUSTED) && stage.isPresent()
            ? body.exhausted().filter(at -> at.compareTo(before) <= 0)
            : Optional.empty();
    Optional<Duration> done = doneAt.filter(at -> at.compareTo(before) <= 0);
    if (exhausted.isPresent()) {
      return Optional.of(session.report(later(exhausted.get(), now), EXHAUSTED));
    } else if (done.isPresent()) {
      Duration at = later(done.get(), now);
      doneAt = Optional.empty();
      Decision decision = session.done(at);
      List<Reading> readings = readings(whenDone(), at);
      return Optional.of(readings.isEmpty() ? decision : tell(at, readings));
    }
    return Optional.empty();
  }

  private Set<String> whenDone() {
    Set<String> signals = new LinkedHashSet<>();
    for (MeasureLine line : protocol.schedule(stage.orElseThrow()).lines()) {
      if (line.timing() instanceof Timing.WhenDone) {
        signals.addAll(line.signals());
      }
    }
    return signals;
  }

  // Time does not stand still for a tester who has nothing to do.
  private static Duration next(Duration until, Duration now) {
    return until.compareTo(now) > 0 ? until : now.plus(ONE_SECOND);
  }

  private static Duration later(Duration one, Duration other) {
    return one.compareTo(other) >= 0 ? one : other;
  }

  private Decision again(Verdict.Measure measure, Duration now) {
    Duration limit = measure.until().orElse(now.plus(AGAIN));
    Duration wanted = now.plus(AGAIN);
    Duration at = next(wanted.compareTo(limit) < 0 ? wanted : limit, now);
    Set<String> signals = new LinkedHashSet<>();
    for (Gap gap : measure.gaps()) {
      if (protocol.instruments().signals().containsKey(gap.subject())) {
        signals.add(gap.subject());
      }
    }
    List<Reading> readings = readings(signals, at);
    return readings.isEmpty() ? session.decide(at) : tell(at, readings);
  }

  private List<Reading> readings(Set<String> signals, Duration at) {
    List<Reading> readings = new ArrayList<>();
    for (String signal : signals) {
      if (!at.equals(told.get(signal))) {
        reading(signal, at).ifPresent(readings::add);
      }
    }
    return readings;
  }

  // All at once; what is refused then, each by itself.
  private Decision tell(Duration at, List<Reading> readings) {
    readings.stream()
        .filter(reading -> !(reading instanceof Reading.Baseline))
        .forEach(reading -> told.put(reading.subject(), at));
    Reading[] all = readings.toArray(Reading[]::new);
    if (session.admit(at, all) instanceof Admission.Admitted admitted) {
      return admitted.answer();
    }
    Decision decision = session.decide(at);
    for (Reading reading : readings) {
      if (session.admit(at, reading) instanceof Admission.Admitted admitted) {
        decision = admitted.answer();
      }
    }
    return decision;
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
    Optional<Reading> modelled =
        body.modelled(name, at).map(value -> Readings.measured(name, possible(signal, value)));
    return modelled.or(() -> rating(name, at));
  }

  // To the step of the instrument, and within what it can show.
  private static Quantity possible(Signal signal, double value) {
    double step = signal.step().map(Quantity::base).orElse(0.0);
    double shown = step > 0 ? Math.rint(value / step) * step : value;
    double within =
        signal
            .range()
            .map(range -> Math.max(range.low().base(), Math.min(range.high().base(), shown)))
            .orElse(shown);
    return Quantity.ofBase(within, signal.unit());
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

  private Map<String, Quantity> results() {
    Map<String, Quantity> results = new LinkedHashMap<>();
    if (!protocol.assessment().results().isEmpty()) {
      Capacity.of(session.outcome()).results().stream()
          .filter(Result::isAvailable)
          .forEach(result -> results.put(result.id(), result.value().orElseThrow()));
    }
    return results;
  }

  private Run run(Decision decision, End end, Duration exercise, Optional<String> recovery) {
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
        best.flatMap(Headline::interval),
        end == End.DEFERRED ? Map.of() : results(),
        recovery);
  }
}
