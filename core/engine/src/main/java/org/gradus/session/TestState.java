package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.plan.Frame;

/**
 * Everything that has happened in a test so far. Immutable: an event makes a new state, so that a
 * refused event leaves nothing behind and a copy costs nothing.
 */
final class TestState {

  final Protocol protocol;
  final Person person;
  final Phase phase;
  final Duration now;
  final History events;

  final Map<String, StoredReading> answers;
  final Map<Posture, Map<String, StoredReading>> baselines;
  final List<StageRun> runs;
  final Map<String, StoredReading> latest;
  final Map<String, StoredReading> atFinish;
  final Map<String, StoredReading> named;
  final Map<String, Double> signs;
  // What a stop was followed for, or overridden, and is not known to have gone since.
  final Set<String> symptoms;
  final Set<String> everReported;
  // Whether an alarming stop applied when the exercise, or the test, was ended.
  final boolean alarmed;

  // By the ids of rules that can end something; the others are watched for nothing.
  final Map<String, RuleWatch> watches;
  final Optional<Alarm> alarm;

  final Optional<Duration> exerciseEnd;
  final ReadingSlots recoverySlots;
  final Duration recoverySkipped;
  final List<List<Loading>> recoveryLoads;
  final boolean stopped;
  final Optional<Ending> ending;

  // What was known of the person when the first stage began, and holds from then on. It is copied
  // and
  // never filled again.
  final Optional<Frame> ofThePerson;

  private TestState(Change change) {
    this.protocol = change.protocol;
    this.person = change.person;
    this.phase = change.phase;
    this.now = change.now;
    this.events = change.events;
    this.answers = change.answers;
    this.baselines = change.baselines;
    this.runs = change.runs;
    this.latest = change.latest;
    this.atFinish = change.atFinish;
    this.named = change.named;
    this.signs = change.signs;
    this.symptoms = change.symptoms;
    this.everReported = change.everReported;
    this.alarmed = change.alarmed;
    this.watches = change.watches;
    this.alarm = change.alarm;
    this.exerciseEnd = change.exerciseEnd;
    this.recoverySlots = change.recoverySlots;
    this.recoverySkipped = change.recoverySkipped;
    this.recoveryLoads = change.recoveryLoads;
    this.stopped = change.stopped;
    this.ending = change.ending;
    this.ofThePerson = change.ofThePerson;
  }

  /**
   * A test that is opened.
   *
   * @throws ReadingRefused when something the protocol needs to know of the person was not given
   */
  static TestState open(Protocol protocol, Person person) {
    for (String need : protocol.eligibility().needs().stream().sorted().toList()) {
      if (Attribute.named(need).flatMap(person::value).isEmpty()) {
        throw new ReadingRefused(Code.G606, need, protocol.id(), "");
      }
    }
    return begin(protocol, person);
  }

  /** The same test from the start, once it was opened. */
  static TestState begin(Protocol protocol, Person person) {
    return new TestState(new Change(protocol, person));
  }

  /** This state with something changed. */
  TestState with(Consumer<Change> what) {
    Change change = new Change(this);
    what.accept(change);
    return new TestState(change);
  }

  /** Until when a second reading can be waited for at this point: no longer than for any other. */
  Duration waitsUntil() {
    return phase == Phase.STAGE
        ? currentRun().waitsUntil(protocol.unmeasured())
        : exerciseEnd.orElse(now).plus(protocol.recovery().orElseThrow().atMost());
  }

  /** What is remembered of a rule. */
  RuleWatch watch(ProtocolRule rule) {
    return watches.getOrDefault(rule.id(), RuleWatch.NONE);
  }

  /** The stage the person is in, or was in last. */
  Optional<StageRun> lastRun() {
    return runs.isEmpty() ? Optional.empty() : Optional.of(runs.get(runs.size() - 1));
  }

  /** Whether a signal was read before the test. */
  boolean hasBaseline(Posture posture, String signal) {
    return Optional.ofNullable(baselines.get(posture))
        .filter(taken -> taken.containsKey(signal))
        .isPresent();
  }

  /** The stage the person is in; to be asked in stages only. */
  StageRun currentRun() {
    return runs.get(runs.size() - 1);
  }

  /** The next state while it is edited; its collections are replaced, never changed. */
  static final class Change {

    final Protocol protocol;
    final Person person;
    Phase phase = Phase.BEFORE;
    Duration now = Duration.ZERO;
    History events = History.EMPTY;
    Map<String, StoredReading> answers = Map.of();
    Map<Posture, Map<String, StoredReading>> baselines = Map.of();
    List<StageRun> runs = List.of();
    Map<String, StoredReading> latest = Map.of();
    Map<String, StoredReading> atFinish = Map.of();
    Map<String, StoredReading> named = Map.of();
    Map<String, Double> signs = Map.of();
    Set<String> symptoms = Set.of();
    Set<String> everReported = Set.of();
    boolean alarmed;
    Map<String, RuleWatch> watches = Map.of();
    Optional<Alarm> alarm = Optional.empty();
    Optional<Duration> exerciseEnd = Optional.empty();
    ReadingSlots recoverySlots = ReadingSlots.EMPTY;
    Duration recoverySkipped = Duration.ZERO;
    List<List<Loading>> recoveryLoads = List.of();
    boolean stopped;
    Optional<Ending> ending = Optional.empty();
    Optional<Frame> ofThePerson = Optional.empty();

    private Change(Protocol protocol, Person person) {
      this.protocol = protocol;
      this.person = person;
    }

    private Change(TestState state) {
      this(state.protocol, state.person);
      phase = state.phase;
      now = state.now;
      events = state.events;
      answers = state.answers;
      baselines = state.baselines;
      runs = state.runs;
      latest = state.latest;
      atFinish = state.atFinish;
      named = state.named;
      signs = state.signs;
      symptoms = state.symptoms;
      everReported = state.everReported;
      alarmed = state.alarmed;
      watches = state.watches;
      alarm = state.alarm;
      exerciseEnd = state.exerciseEnd;
      recoverySlots = state.recoverySlots;
      recoverySkipped = state.recoverySkipped;
      recoveryLoads = state.recoveryLoads;
      stopped = state.stopped;
      ending = state.ending;
      ofThePerson = state.ofThePerson;
    }

    /** What is remembered of a rule by now. */
    RuleWatch watch(ProtocolRule rule) {
      return watches.getOrDefault(rule.id(), RuleWatch.NONE);
    }

    /** Remembers something else of a rule. */
    void watch(String rule, RuleWatch watch) {
      watches =
          watch.equals(RuleWatch.NONE)
              ? PersistentCollections.without(watches, rule)
              : PersistentCollections.with(watches, rule, watch);
    }

    /** Forgets what rules hung on: what has been acted upon stands. */
    void withoutMarginal() {
      for (Map.Entry<String, RuleWatch> entry : watches.entrySet()) {
        watch(entry.getKey(), entry.getValue().withoutMarginal());
      }
    }

    /** The rules whose word the tester has answered. */
    Set<String> heard() {
      return watches.entrySet().stream()
          .filter(entry -> entry.getValue().heard().isPresent())
          .map(Map.Entry::getKey)
          .collect(Collectors.toUnmodifiableSet());
    }

    /** The test is over. */
    Change end(Ending how) {
      phase = Phase.ENDED;
      alarm = Optional.empty();
      ending = Optional.of(how);
      return this;
    }

    void replace(int run, StageRun by) {
      runs = PersistentCollections.with(runs, run, by);
    }
  }
}
