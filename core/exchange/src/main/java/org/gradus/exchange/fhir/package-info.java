/**
 * Tests for record systems that speak HL7 FHIR R4: a whole test as a Bundle, and readings out of
 * Observations.
 *
 * <pre>{@code
 * FhirOptions options = FhirOptions.at(start).patient("Patient/123").html(page);
 * String json = FhirBundle.of(session, options);
 *
 * FhirReadings known = FhirReadings.from(observations);
 * }</pre>
 *
 * <p>Codes come from the file {@code codes.yaml} beside the classes, each with how far it was
 * checked. A result is an estimate, and each says so. A bundle advises a trained person who
 * decides; it is no order to treat anybody.
 */
@NullMarked
package org.gradus.exchange.fhir;

import org.jspecify.annotations.NullMarked;
