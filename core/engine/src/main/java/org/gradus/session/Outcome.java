package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;

/**
 * A test as it stood at one moment, from which its result is worked out. Immutable; it may be
 * shared between threads. Only a {@link Session} makes one.
 */
public sealed interface Outcome permits StateOutcome {

  /** The protocol, with its settings. */
  Protocol protocol();

  /** The person. */
  Person person();

  /** Where the test stood. */
  Phase phase();

  /** How it ended, once it has. */
  Optional<Ending> ending();

  /** Whether the exercise was ended by a stop. */
  boolean stopped();

  /**
   * Whether the person has to be cleared before exercising again: the exercise or the test ended
   * while an alarming stop applied, recovery was ended as an emergency, or it was told that the
   * person is not cleared. A stop is alarming unless its rule says {@code alarming: no}.
   */
  boolean needsClearance();

  /** Whether it was told in recovery that the person is cleared for exercise after the stop. */
  boolean clearedAfterStop();

  /** The load that was set at the last event: of the stage, or of recovery. */
  List<Loading> load();

  /** The load at a moment not before the last event, if nothing else is told until then. */
  List<Loading> load(Duration at);

  /** The stages that were left, in order; not the one that still lasts. */
  List<StageResult> stages();

  /** Whether the exercise has ended, and recovery begun if there is one. */
  boolean exerciseHasEnded();
}
