package org.gradus.examples.fleet;

import org.gradus.history.Json;
import org.gradus.session.Decision;

/**
 * A decision about one test.
 *
 * @param test the id of the test
 * @param protocol the id and version of its protocol
 * @param time its moment, in milliseconds since 1970
 * @param cause why it was asked for
 * @param decision the decision, as {@link Json} writes it
 */
public record FleetAnswer(String test, String protocol, long time, Cause cause, String decision) {

  /** Why a decision was asked for. */
  public enum Cause {
    /** The test was opened. */
    OPENED,
    /** An event was told. */
    TOLD,
    /** Time went on, and the decision may have changed by itself. */
    TIME
  }

  static FleetAnswer of(String test, LiveTimes times, Cause cause, Decision decision) {
    return new FleetAnswer(
        test, times.protocol(), times.epoch(decision.at()), cause, Json.of(decision));
  }

  /** One line of JSON. */
  public String line() {
    return "{\"test\": %s, \"protocol\": %s, \"time\": %d, \"cause\": \"%s\", \"decision\": %s}"
        .formatted(Json.write(test), Json.write(protocol), time, cause, decision);
  }
}
