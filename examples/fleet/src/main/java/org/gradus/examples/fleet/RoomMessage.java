package org.gradus.examples.fleet;

import org.gradus.history.Json;
import org.gradus.protocol.Person;
import org.gradus.session.Event;

/**
 * What arrives from a test room about one test. Messages of one test arrive in one stream, its
 * opening first.
 *
 * @param test the id of the test, unique in the fleet
 * @param kind whether it opens the test or tells something
 * @param time when it was sent, in milliseconds since 1970; the clock of a test starts at the time
 *     of its opening
 * @param protocol the id of the protocol of a test that is opened; it gets the newest version, and
 *     keeps it. Empty unless it opens
 * @param body a person as {@link Json} writes one, where it opens the test; else an event
 */
public record RoomMessage(String test, Kind kind, long time, String protocol, String body) {

  private static final int FIELDS = 5;

  /** What a message does. */
  public enum Kind {
    /** It opens a test. */
    OPEN,
    /** It tells an event. */
    TELL
  }

  /** Opens a test. */
  public static RoomMessage open(String test, long begun, String protocol, Person person) {
    return new RoomMessage(test, Kind.OPEN, begun, protocol, Json.of(person));
  }

  /**
   * Tells an event.
   *
   * @param begun when the test was opened, in milliseconds since 1970
   */
  public static RoomMessage tell(String test, long begun, Event event) {
    return new RoomMessage(test, Kind.TELL, begun + event.at().toMillis(), "", Json.of(event));
  }

  /** One line of text, of which {@link #read} makes an equal message. */
  String line() {
    return String.join("\t", test, kind.name(), Long.toString(time), protocol, body);
  }

  /**
   * The message of a line.
   *
   * @throws IllegalArgumentException when it is no such line
   */
  static RoomMessage read(String line) {
    String[] fields = line.split("\t", -1);
    if (fields.length != FIELDS) {
      throw new IllegalArgumentException(
          "a message has " + FIELDS + " fields with tabs between them, not " + fields.length);
    }
    return new RoomMessage(
        fields[0], Kind.valueOf(fields[1]), Long.parseLong(fields[2]), fields[3], fields[4]);
  }
}
