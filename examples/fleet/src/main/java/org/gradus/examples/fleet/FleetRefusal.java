package org.gradus.examples.fleet;

import org.gradus.diagnostic.GradusException;
import org.gradus.history.Json;

/**
 * Something that was refused, so that nothing is dropped silently: it has not happened, and its
 * sender or a person has to look at it.
 *
 * @param test the id of the test, or of the protocol where files were refused
 * @param time when it was sent, in milliseconds since 1970
 * @param code the stable code of the refusal, {@code G503}
 * @param refusal the whole refusal with its remedy, as {@link Json} writes it
 * @param body what was refused, as it came
 */
public record FleetRefusal(String test, long time, String code, String refusal, String body) {

  static FleetRefusal of(String test, long time, String body, GradusException refused) {
    return new FleetRefusal(test, time, refused.code().toString(), Json.of(refused), body);
  }

  /** One line of JSON. */
  public String line() {
    return "{\"test\": %s, \"time\": %d, \"refusal\": %s, \"body\": %s}"
        .formatted(Json.write(test), time, refusal, Json.write(body));
  }
}
