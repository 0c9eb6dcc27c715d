package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.Map;
import java.util.Optional;
import org.gradus.knowledge.Given;
import org.gradus.protocol.LoadRange;
import org.gradus.protocol.Person;
import org.gradus.unit.Quantity;

/**
 * What has to be known of a test beyond its estimates, to compare them and to plan by them.
 *
 * @param protocol the id of its protocol
 * @param title the title of its protocol
 * @param ergometer what it was done on
 * @param purpose {@code submaximal} or {@code maximal}
 * @param settings the settings of the protocol as they were used, by name
 * @param maximum the title of the equation that {@code max_heart_rate} chose, as in {@code 220 -
 *     age}, or {@code measured}; empty where it chose none
 * @param person the person
 * @param readings what was read or worked out once: {@code max_heart_rate}, {@code
 *     resting.heart_rate}, readings that the protocol gives a name
 * @param loads what the components of a load can be, by name, as far as its files say so
 */
public record TestFacts(
    String protocol,
    String title,
    String ergometer,
    String purpose,
    Map<String, String> settings,
    Optional<String> maximum,
    Person person,
    Map<String, Quantity> readings,
    Map<String, LoadRange> loads) {

  public TestFacts {
    requireNonNull(ergometer, "ergometer");
    requireNonNull(loads, "loads");
    requireNonNull(maximum, "maximum");
    requireNonNull(person, "person");
    requireNonNull(protocol, "protocol");
    requireNonNull(purpose, "purpose");
    requireNonNull(readings, "readings");
    requireNonNull(settings, "settings");
    requireNonNull(title, "title");
    settings = Map.copyOf(settings);
    readings = Map.copyOf(readings);
    loads = Map.copyOf(loads);
  }

  /** A reading by its name, if it was taken. */
  public Optional<Quantity> reading(String name) {
    requireNonNull(name, "name");
    return Optional.ofNullable(readings.get(name));
  }

  /** All of it by the names that formulas use. */
  public Given given() {
    Given given = person.given();
    for (Map.Entry<String, Quantity> reading : readings.entrySet()) {
      given = given.with(reading.getKey(), reading.getValue());
    }
    return given;
  }
}
