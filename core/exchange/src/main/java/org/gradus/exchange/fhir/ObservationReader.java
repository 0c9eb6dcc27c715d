package org.gradus.exchange.fhir;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Printable;
import org.gradus.internal.json.JsonLimits;
import org.gradus.internal.json.JsonReader;
import org.gradus.internal.json.NotJson;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Reads observations that a session or a person can use. */
final class ObservationReader {

  // Observations of any other status say that they do not count.
  private static final Set<String> COUNT =
      Set.of("registered", "preliminary", "final", "amended", "corrected");
  private static final int MOST = 10_000;

  // Other systems nest more deeply than records do, send null, and count in decimals.
  private static final JsonLimits LIMITS = new JsonLimits(64, 50_000_000, true, BigDecimal::new);
  private static final String LOINC = "http://loinc.org";

  private final Codes codes = Codes.read();
  private final List<FhirReadings.Dated> readings = new ArrayList<>();
  private final List<String> skipped = new ArrayList<>();
  private final List<String> problems = new ArrayList<>();
  private Optional<Quantity> mass = Optional.empty();
  private Optional<Quantity> height = Optional.empty();

  /** What a text of JSON holds; a number is a {@link BigDecimal}. */
  static Object json(String text) {
    return JsonReader.read(text, LIMITS);
  }

  FhirReadings read(String json) {
    Object root;
    try {
      root = json(json);
    } catch (NotJson problem) {
      throw new FhirRefused(List.of("the text is no JSON: " + problem.getMessage()));
    }
    if (!(root instanceof Map<?, ?> resource)) {
      throw new FhirRefused(List.of("the text is no resource; give a Bundle or an Observation"));
    }
    String type = text(resource, "resourceType");
    if (type.equals("Bundle")) {
      bundle(resource);
    } else if (type.equals("Observation")) {
      observation(resource, "Observation");
    } else {
      throw new FhirRefused(
          List.of("resourceType: is " + shown(type) + "; give a Bundle or an Observation"));
    }
    if (!problems.isEmpty()) {
      throw new FhirRefused(problems);
    }
    return new FhirReadings(readings, mass, height, skipped);
  }

  private void bundle(Map<?, ?> bundle) {
    List<?> entries = list(bundle, "entry");
    if (entries.size() > MOST) {
      throw new FhirRefused(
          List.of("entry: has " + entries.size() + " items; at most " + MOST + " are read"));
    }
    for (int i = 0; i < entries.size(); i++) {
      String place = "entry[" + i + "].resource";
      if (entries.get(i) instanceof Map<?, ?> entry
          && entry.get("resource") instanceof Map<?, ?> resource) {
        if (text(resource, "resourceType").equals("Observation")) {
          observation(resource, place);
        } else {
          skipped.add(place + ": is no Observation");
        }
      } else {
        problems.add(place + ": is missing; an entry has a resource");
      }
    }
  }

  private void observation(Map<?, ?> observation, String place) {
    String status = text(observation, "status");
    if (!COUNT.contains(status)) {
      skipped.add(place + ": its status is " + shown(status));
    } else if (has(observation, "heart_rate") || has(observation, "heart_rate_at_rest")) {
      quantity(observation, place, Unit.BPM)
          .ifPresent(rate -> take(observation, Readings.heartRate(rate.amount())));
    } else if (has(observation, "pressure")) {
      pressure(observation, place);
    } else if (has(observation, "mass")) {
      quantity(observation, place, Unit.KILOGRAM, Unit.POUND).ifPresent(this::takeMass);
    } else if (has(observation, "height")) {
      quantity(observation, place, Unit.CENTIMETRE, Unit.METRE, Unit.INCH)
          .ifPresent(this::takeHeight);
    } else {
      skipped.add(place + ": its code is none of a heart rate, pressure, weight or height");
    }
  }

  private void takeMass(Quantity quantity) {
    mass = Optional.of(quantity);
  }

  private void takeHeight(Quantity quantity) {
    height = Optional.of(quantity);
  }

  private void take(Map<?, ?> observation, Reading reading) {
    readings.add(new FhirReadings.Dated(time(text(observation, "effectiveDateTime")), reading));
  }

  private static Optional<OffsetDateTime> time(String text) {
    try {
      return Optional.of(OffsetDateTime.parse(text));
    } catch (DateTimeException dateOnly) {
      return Optional.empty();
    }
  }

  private void pressure(Map<?, ?> observation, String place) {
    Optional<Quantity> systolic = component(observation, place, "systolic");
    Optional<Quantity> diastolic = component(observation, place, "diastolic");
    if (systolic.isPresent() && diastolic.isPresent()) {
      take(
          observation,
          Readings.pressure(systolic.get().in(Unit.MMHG), diastolic.get().in(Unit.MMHG)));
    }
  }

  private Optional<Quantity> component(Map<?, ?> observation, String place, String concept) {
    List<?> components = list(observation, "component");
    for (int i = 0; i < components.size(); i++) {
      if (components.get(i) instanceof Map<?, ?> component && has(component, concept)) {
        return quantity(component, place + ".component[" + i + "]", Unit.MMHG, Unit.KPA);
      }
    }
    skipped.add(place + ": has no " + concept + " pressure");
    return Optional.empty();
  }

  private boolean has(Map<?, ?> coded, String concept) {
    String wanted = codes.concept(concept).orElseThrow().code();
    return coded.get("code") instanceof Map<?, ?> code
        && list(code, "coding").stream()
            .anyMatch(
                coding ->
                    coding instanceof Map<?, ?> one
                        && text(one, "system").equals(LOINC)
                        && text(one, "code").equals(wanted));
  }

  private Optional<Quantity> quantity(Map<?, ?> holder, String place, Unit... units) {
    if (!(holder.get("valueQuantity") instanceof Map<?, ?> quantity)) {
      skipped.add(place + ": has no valueQuantity");
      return Optional.empty();
    }
    String ucum = text(quantity, "code");
    Optional<Unit> unit =
        text(quantity, "system").equals(Codes.UCUM) ? codes.unit(ucum, units) : Optional.empty();
    if (unit.isEmpty()) {
      problems.add(
          place
              + ".valueQuantity.code: is "
              + shown(ucum)
              + "; give a UCUM unit, one of "
              + String.join(", ", List.of(units).stream().map(codes::ucum).toList()));
    } else if (quantity.get("value") instanceof BigDecimal value
        && Double.isFinite(value.doubleValue())) {
      return Optional.of(Quantity.of(value.doubleValue(), unit.get()));
    } else {
      problems.add(place + ".valueQuantity.value: is no number");
    }
    return Optional.empty();
  }

  private static String text(Map<?, ?> holder, String name) {
    return holder.get(name) instanceof String text ? text : "";
  }

  private static List<?> list(Map<?, ?> holder, String name) {
    return holder.get(name) instanceof List<?> list ? list : List.of();
  }

  private static String shown(String text) {
    String cut = text.length() > 40 ? text.substring(0, 40) + "..." : text;
    return cut.isEmpty() ? "missing" : Printable.text(cut);
  }
}
