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
 * Everything that has happened in a test so far. Immutable: an event makes a new course, so that a
 * refused event leaves nothing behind and a copy costs nothing.
 */
final class Course {

  final Protocol protocol;
  final Person person;
  final Phase phase;
  final Duration now;
  final History events;

  final Map<String, Taken> answers;
  final Map<Posture, Map<String, Taken>> baselines;
  final List<Passage> passages;
  final Map<String, Taken> latest;
  final Map<String, Taken> atFinish;
  final Map<String, Taken> named;
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
  final Slots recoverySlots;
  final Duration recoverySkipped;
  final List<List<Loading>> recoveryLoads;
  final boolean stopped;
  final Optional<Ending> ending;

  // What was known of the person when the first stage began, and holds from then on. It is copied
  // and
  // never filled again.
  final Optional<Frame> ofThePerson;

  private Course(Change change) {
    this.protocol = change.protocol;
    this.person = change.person;
    this.phase = change.phase;
    this.now = change.now;
    this.events = change.events;
    this.answers = change.answers;
    this.baselines = change.baselines;
    this.passages = change.passages;
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
  static Course open(Protocol protocol, Person person) {
    for (String need : protocol.eligibility().needs().stream().sorted().toList()) {
      if (Attribute.named(need).flatMap(person::value).isEmpty()) {
        throw new ReadingRefused(Code.G606, need, protocol.id(), "");
      }
    }
    return begin(protocol, person);
  }

  /** The same test from the start, once it was opened. */
  static Course begin(Protocol protocol, Person person) {
    return new Course(new Change(protocol, person));
  }

  /** This course with something changed. */
  Course with(Consumer<Change> what) {
    Change change = new Change(this);
    what.accept(change);
    return new Course(change);
  }

  /** Until when a second reading can be waited for at this point: no longer than for any other. */
  Duration waitsUntil() {
    return phase == Phase.STAGE
        ? present().waitsUntil(protocol.unmeasured())
        : exerciseEnd.orElse(now).plus(protocol.recovery().orElseThrow().atMost());
  }

  /** What is remembered of a rule. */
  RuleWatch watch(ProtocolRule rule) {
    return watches.getOrDefault(rule.id(), RuleWatch.NONE);
  }

  /** The stage the person is in, or was in last. */
  Optional<Passage> passage() {
    return passages.isEmpty() ? Optional.empty() : Optional.of(passages.get(passages.size() - 1));
  }

  /** Whether a signal was read before the test. */
  boolean hasBaseline(Posture posture, String signal) {
    return Optional.ofNullable(baselines.get(posture))
        .filter(taken -> taken.containsKey(signal))
        .isPresent();
  }

  /** The stage the person is in; to be asked in stages only. */
  Passage present() {
    return passages.get(passages.size() - 1);
  }

  /** A course in the making; what it holds is replaced, never changed. */
  static final class Change {

    final Protocol protocol;
    final Person person;
    Phase phase = Phase.BEFORE;
    Duration now = Duration.ZERO;
    History events = History.EMPTY;
    Map<String, Taken> answers = Map.of();
    Map<Posture, Map<String, Taken>> baselines = Map.of();
    List<Passage> passages = List.of();
    Map<String, Taken> latest = Map.of();
    Map<String, Taken> atFinish = Map.of();
    Map<String, Taken> named = Map.of();
    Map<String, Double> signs = Map.of();
    Set<String> symptoms = Set.of();
    Set<String> everReported = Set.of();
    boolean alarmed;
    Map<String, RuleWatch> watches = Map.of();
    Optional<Alarm> alarm = Optional.empty();
    Optional<Duration> exerciseEnd = Optional.empty();
    Slots recoverySlots = Slots.EMPTY;
    Duration recoverySkipped = Duration.ZERO;
    List<List<Loading>> recoveryLoads = List.of();
    boolean stopped;
    Optional<Ending> ending = Optional.empty();
    Optional<Frame> ofThePerson = Optional.empty();

    private Change(Protocol protocol, Person person) {
      this.protocol = protocol;
      this.person = person;
    }

    private Change(Course course) {
      this(course.protocol, course.person);
      phase = course.phase;
      now = course.now;
      events = course.events;
      answers = course.answers;
      baselines = course.baselines;
      passages = course.passages;
      latest = course.latest;
      atFinish = course.atFinish;
      named = course.named;
      signs = course.signs;
      symptoms = course.symptoms;
      everReported = course.everReported;
      alarmed = course.alarmed;
      watches = course.watches;
      alarm = course.alarm;
      exerciseEnd = course.exerciseEnd;
      recoverySlots = course.recoverySlots;
      recoverySkipped = course.recoverySkipped;
      recoveryLoads = course.recoveryLoads;
      stopped = course.stopped;
      ending = course.ending;
      ofThePerson = course.ofThePerson;
    }

    /** What is remembered of a rule by now. */
    RuleWatch watch(ProtocolRule rule) {
      return watches.getOrDefault(rule.id(), RuleWatch.NONE);
    }

    /** Remembers something else of a rule. */
    void watch(String rule, RuleWatch watch) {
      watches =
          watch.equals(RuleWatch.NONE)
              ? Copies.without(watches, rule)
              : Copies.with(watches, rule, watch);
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

    void replace(int passage, Passage by) {
      passages = Copies.with(passages, passage, by);
    }
  }
}
