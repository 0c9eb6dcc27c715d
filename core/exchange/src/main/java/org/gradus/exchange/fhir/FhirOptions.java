package org.gradus.exchange.fhir;

import static java.util.Objects.requireNonNull;

import java.time.OffsetDateTime;
import java.util.Optional;
import org.gradus.training.Training;

/**
 * What only the host knows of a test.
 *
 * @param start the date and time of 0:00 of the session
 * @param patient a reference to the person in the record system, such as {@code "Patient/123"}; a
 *     bundle has no Patient of its own, and without a reference it names nobody
 * @param performer who gave the test, in the host's words
 * @param plan the training plan that goes with it
 * @param html the report as HTML that goes with it
 */
public record FhirOptions(
    OffsetDateTime start,
    Optional<String> patient,
    Optional<String> performer,
    Optional<Training> plan,
    Optional<String> html) {
  public FhirOptions {
    requireNonNull(html, "html");
    requireNonNull(patient, "patient");
    requireNonNull(performer, "performer");
    requireNonNull(plan, "plan");
    requireNonNull(start, "start");
  }

  /** A test that began at a date and time, and nothing else. */
  public static FhirOptions at(OffsetDateTime start) {
    requireNonNull(start, "start");
    return new FhirOptions(
        start, Optional.empty(), Optional.empty(), Optional.empty(), Optional.empty());
  }

  /** With a reference to the person. */
  public FhirOptions patient(String reference) {
    requireNonNull(reference, "reference");
    return new FhirOptions(start, Optional.of(reference), performer, plan, html);
  }

  /** With who gave the test. */
  public FhirOptions performer(String words) {
    requireNonNull(words, "words");
    return new FhirOptions(start, patient, Optional.of(words), plan, html);
  }

  /** With a training plan. */
  public FhirOptions plan(Training training) {
    requireNonNull(training, "training");
    return new FhirOptions(start, patient, performer, Optional.of(training), html);
  }

  /** With the report as HTML. */
  public FhirOptions html(String page) {
    requireNonNull(page, "page");
    return new FhirOptions(start, patient, performer, plan, Optional.of(page));
  }
}
