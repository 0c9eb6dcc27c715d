package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
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

    /** What was read, or asked. */
    List<String> subjects() {
      List<String> names = new ArrayList<>();
      for (Reading reading : readings) {
        names.add(reading.subject());
      }
      return names;
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
   * A sign is over.
   *
   * @param sign which
   * @param reason why it is withdrawn
   * @param at when it was told
   */
  record Withdrawn(String sign, String reason, Duration at) implements Event {}

  /**
   * Readings told before are put right. The first values stay in the record.
   *
   * @param event the number of the event that told them; the first event has number 1
   * @param readings what they should have been; of the same signals or questions
   * @param reason why
   * @param at when it was told
   */
  record Amended(int event, List<Reading> readings, String reason, Duration at) implements Event {
    public Amended {
      readings = List.copyOf(readings);
    }
  }

  /**
   * A reading or report told before is not to count, as if it had never been told. It stays in the
   * record.
   *
   * @param event the number of the event that told it; the first event has number 1
   * @param subject the signal, question or sign, or {@link Done#SUBJECT}
   * @param reason why
   * @param at when it was told
   */
  record Rejected(int event, String subject, String reason, Duration at) implements Event {}

  /**
   * The load that is really set.
   *
   * @param load the component and its value
   * @param at when it was set
   */
  record LoadSet(Loading load, Duration at) implements Event {}

  /**
   * What was to be done in a stage that lasts until it is done has been done.
   *
   * @param reached when it was done
   * @param at when it was told
   */
  record Done(Duration reached, Duration at) implements Event {

    /** What to call it by when it is taken back. */
    public static final String SUBJECT = "done";
  }

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
