package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.OptionalInt;

/** Something a session was told. The events of a test, in order, are the whole of it. */
public sealed interface Event {

  /** When it was told, since the start of the session. */
  Duration at();

  /**
   * Readings.
   *
   * @param readings what was read, in single readings
   * @param taken when it was read
   * @param at when it was told
   */
  record Read(List<Reading> readings, Duration taken, Duration at) implements Event {
    public Read {
      readings = List.copyOf(readings);
    }
  }

  /**
   * A sign or symptom.
   *
   * @param sign which
   * @param grade its grade, for a graded one
   * @param at when it was told
   */
  record Reported(String sign, OptionalInt grade, Duration at) implements Event {}

  /**
   * A sign is over, or was reported by mistake.
   *
   * @param sign which
   * @param reason why it is withdrawn
   * @param at when it was told
   */
  record Withdrawn(String sign, String reason, Duration at) implements Event {}

  /**
   * The load that is really set.
   *
   * @param load the component and its value
   * @param at when it was set
   */
  record LoadSet(Loading load, Duration at) implements Event {}

  /**
   * A verdict was followed.
   *
   * @param verdict which
   * @param at when it takes effect
   */
  record Followed(Verdict verdict, Duration at) implements Event {}

  /**
   * The tester decided otherwise.
   *
   * @param verdict what the tester decided
   * @param reason why
   * @param at when it takes effect
   */
  record Overridden(Verdict verdict, String reason, Duration at) implements Event {}

  /**
   * The tester broke the test off.
   *
   * @param reason why
   * @param at when
   */
  record Abandoned(String reason, Duration at) implements Event {}
}
