package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.words.FileText;

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

  final ToldReadings readings;
  final List<StageRun> runs;
  final SeenSigns signs;
  final RuleWatches watches;
  final RecoveryRun recovery;
  final Optional<Ending> ending;

  private TestState(Change change) {
    this.protocol = change.protocol;
    this.person = change.person;
    this.phase = change.phase;
    this.now = change.now;
    this.events = change.events;
    this.readings = change.readings;
    this.runs = change.runs;
    this.signs = change.signs;
    this.watches = change.watches;
    this.recovery = change.recovery;
    this.ending = change.ending;
  }

  /**
   * A test that is opened.
   *
   * @throws ReadingRefused when something the protocol needs to know of the person was not given
   */
  static TestState open(Protocol protocol, Person person) {
    for (String need : protocol.eligibility().needs().stream().sorted().toList()) {
      if (Attribute.named(need).flatMap(person::value).isEmpty()) {
        throw new ReadingRefused(Code.G606, new FileText(need), protocol.id(), "");
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
        : recovery.exerciseEnd().orElse(now).plus(protocol.recovery().orElseThrow().atMost());
  }

  /** The stage the person is in, or was in last. */
  Optional<StageRun> lastRun() {
    return runs.isEmpty() ? Optional.empty() : Optional.of(runs.get(runs.size() - 1));
  }

  /** Whether a signal was read before the test. */
  boolean hasBaseline(Posture posture, String signal) {
    return readings.before(posture).containsKey(signal);
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
    ToldReadings readings = ToldReadings.NONE;
    List<StageRun> runs = List.of();
    SeenSigns signs = SeenSigns.NONE;
    RuleWatches watches = RuleWatches.NONE;
    RecoveryRun recovery = RecoveryRun.NONE;
    Optional<Ending> ending = Optional.empty();

    private Change(Protocol protocol, Person person) {
      this.protocol = protocol;
      this.person = person;
    }

    private Change(TestState state) {
      this(state.protocol, state.person);
      phase = state.phase;
      now = state.now;
      events = state.events;
      readings = state.readings;
      runs = state.runs;
      signs = state.signs;
      watches = state.watches;
      recovery = state.recovery;
      ending = state.ending;
    }

    /** The test is over. */
    Change end(Ending how) {
      phase = Phase.ENDED;
      watches = watches.with(Optional.empty());
      ending = Optional.of(how);
      return this;
    }

    void replace(int run, StageRun by) {
      runs = PersistentCollections.with(runs, run, by);
    }
  }
}
