package org.gradus.exchange.fhir;

import static java.util.Objects.requireNonNull;

import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.Person;
import org.gradus.session.Reading;
import org.gradus.unit.Quantity;

/**
 * Readings out of FHIR R4 Observations: heart rates and pressures for a session, mass and height
 * for a person.
 *
 * <pre>{@code
 * FhirReadings known = FhirReadings.from(json);
 * Person.Builder person = Person.builder().age(46);
 * known.giveTo(person);
 * known.readings().forEach(each -> session.record(now, resting(each.reading())));
 * }</pre>
 *
 * <p>Whether a reading is new enough, and was taken at rest, the tester decides: its date stands
 * beside it.
 *
 * @param readings heart rates and pressures, in the order of the text
 * @param mass the last body weight in the text
 * @param height the last body height in the text
 * @param skipped what was left out, each with its place and why: other resources, other codes, and
 *     observations that are cancelled, entered in error or without a value
 */
public record FhirReadings(
    List<Dated> readings,
    Optional<Quantity> mass,
    Optional<Quantity> height,
    List<String> skipped) {

  /**
   * A reading with its date.
   *
   * @param time when it was taken, where the observation says so with date, time and zone
   * @param reading the reading: a heart rate in bpm or a pressure in mmHg
   */
  public record Dated(Optional<OffsetDateTime> time, Reading reading) {
    public Dated {
      requireNonNull(reading, "reading");
      requireNonNull(time, "time");
    }
  }

  public FhirReadings {
    requireNonNull(height, "height");
    requireNonNull(mass, "mass");
    requireNonNull(readings, "readings");
    requireNonNull(skipped, "skipped");
    readings = List.copyOf(readings);
    skipped = List.copyOf(skipped);
  }

  /**
   * Reads a Bundle or a single Observation.
   *
   * @param json the resource as JSON
   * @throws FhirRefused when the text is no JSON or no such resource, or a known observation has a
   *     unit that is none of its kind or a value that is no number
   */
  public static FhirReadings from(String json) {
    requireNonNull(json, "json");
    return new ObservationReader().read(json);
  }

  /**
   * Gives mass and height to a person, as far as they are known.
   *
   * @throws org.gradus.diagnostic.ReadingRefused when one of them is no value a person can have
   */
  public void giveTo(Person.Builder person) {
    requireNonNull(person, "person");
    mass.ifPresent(person::mass);
    height.ifPresent(person::height);
  }
}
