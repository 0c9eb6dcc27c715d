package org.gradus.exchange.fhir;

import static org.gradus.exchange.fhir.BundleParts.component;
import static org.gradus.exchange.fhir.BundleParts.map;
import static org.gradus.exchange.fhir.BundleParts.quantity;
import static org.gradus.exchange.fhir.BundleParts.words;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Posture;
import org.gradus.session.Event;
import org.gradus.session.Loading;
import org.gradus.session.Outcome;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.StageResult;
import org.gradus.session.Times;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** The observations of a test: what was known of the person, read, set and estimated. */
final class Observations {

  private static final String PROFILES = "http://hl7.org/fhir/StructureDefinition/";
  private static final String HEART_RATE = "heart_rate";
  private static final String SYSTOLIC = "systolic";
  private static final String DIASTOLIC = "diastolic";

  private final Session session;
  private final Outcome outcome;
  private final Capacity capacity;
  private final FhirOptions options;
  private final Codes codes;
  private final Map<String, Object> subject;

  Observations(
      Session session,
      Capacity capacity,
      FhirOptions options,
      Codes codes,
      Map<String, Object> subject) {
    this.session = session;
    this.outcome = session.outcome();
    this.capacity = capacity;
    this.options = options;
    this.codes = codes;
    this.subject = subject;
  }

  List<Map<String, Object>> all() {
    List<Map<String, Object>> all = new ArrayList<>();
    person(Attribute.MASS, "mass", "bodyweight", "Body weight", Unit.KILOGRAM).ifPresent(all::add);
    person(Attribute.HEIGHT, "height", "bodyheight", "Body height", Unit.CENTIMETRE)
        .ifPresent(all::add);
    List<Event> events = session.events();
    for (int i = 0; i < events.size(); i++) {
      if (events.get(i) instanceof Event.Read read) {
        all.addAll(readings(i + 1, read));
      }
    }
    outcome.stages().forEach(stage -> all.add(load(stage)));
    if (!outcome.stages().isEmpty()) {
      all.add(duration());
    }
    for (Estimate estimate : capacity.estimates()) {
      if (estimate instanceof Estimate.Available available) {
        all.add(result(available));
      }
    }
    capacity.results().stream().filter(Result::isAvailable).map(this::result).forEach(all::add);
    return all;
  }

  private Map<String, Object> vitalSign(
      String profile, String status, Map<String, Object> code, Duration at) {
    Map<String, Object> observation = observation(status, "vital-signs", code, at);
    observation.put("meta", map("profile", List.of(PROFILES + profile)));
    return observation;
  }

  private Map<String, Object> observation(
      String status, String category, Map<String, Object> code, Duration at) {
    Map<String, Object> observation = new LinkedHashMap<>();
    observation.put("resourceType", "Observation");
    observation.put("status", status);
    options
        .performer()
        .ifPresent(who -> observation.put("performer", List.of(map("display", who))));
    observation.put("category", BundleParts.category(category));
    observation.put("code", code);
    observation.put("subject", subject);
    observation.put("effectiveDateTime", BundleParts.instant(options.start(), at));
    return observation;
  }

  private Optional<Map<String, Object>> person(
      Attribute attribute, String concept, String profile, String words, Unit unit) {
    return outcome
        .person()
        .value(attribute)
        .map(
            value -> {
              Map<String, Object> observation =
                  vitalSign(profile, "final", codes.concept(words, concept), Duration.ZERO);
              observation.put("valueQuantity", quantity(Quantity.of(value.in(unit), unit), codes));
              return observation;
            });
  }

  // Systolic and diastolic of one event are one observation, whichever of the two are there.
  private List<Map<String, Object>> readings(int number, Event.Read read) {
    List<Map<String, Object>> all = new ArrayList<>();
    Map<Optional<Posture>, Map<String, Told>> pressures = new LinkedHashMap<>();
    for (Reading reading : read.readings()) {
      Told told = told(number, reading);
      String subjectOf = reading.subject();
      if (!outcome.protocol().instruments().signals().containsKey(subjectOf)) {
        continue;
      }
      if (subjectOf.equals(SYSTOLIC) || subjectOf.equals(DIASTOLIC)) {
        pressures
            .computeIfAbsent(told.posture(), posture -> new LinkedHashMap<>())
            .put(subjectOf, told);
      } else {
        all.add(reading(told, read.taken()));
      }
    }
    pressures.values().forEach(both -> all.add(pressure(both, read.taken())));
    return all;
  }

  /** A reading as it counts now. */
  private record Told(Reading reading, Optional<Posture> posture, String status) {}

  private Told told(int number, Reading reading) {
    Reading now = reading;
    String status = "final";
    for (Event event : session.events()) {
      if (event instanceof Event.Rejected rejected
          && rejected.event() == number
          && rejected.subject().equals(reading.subject())) {
        status = "entered-in-error";
      } else if (event instanceof Event.Amended amended && amended.event() == number) {
        for (Reading better : amended.readings()) {
          if (better.subject().equals(reading.subject())) {
            now = better;
            status = "amended";
          }
        }
      }
    }
    Optional<Posture> posture =
        reading instanceof Reading.Baseline baseline
            ? Optional.of(baseline.posture())
            : Optional.empty();
    return new Told(
        now instanceof Reading.Baseline baseline ? baseline.reading() : now, posture, status);
  }

  private Map<String, Object> reading(Told told, Duration taken) {
    Reading reading = told.reading();
    boolean rate = reading.subject().equals(HEART_RATE);
    Map<String, Object> observation =
        rate
            ? vitalSign("heartrate", told.status(), code(told), taken)
            : observation(told.status(), "exam", code(told), taken);
    if (reading instanceof Reading.Measured measured) {
      observation.put("valueQuantity", quantity(measured.value(), codes));
    } else if (reading instanceof Reading.Answered answered) {
      observation.put("valueBoolean", answered.yes());
    } else {
      observation.put("valueString", reading.toString());
    }
    where(observation, told.posture(), taken);
    return observation;
  }

  private Map<String, Object> code(Told told) {
    String name = told.reading().subject();
    String words = inWords(name);
    boolean rest = told.posture().filter(Posture.RESTING::equals).isPresent();
    if (name.equals(HEART_RATE)) {
      return rest
          ? codes.concept("Heart rate at rest", HEART_RATE, "heart_rate_at_rest")
          : codes.concept("Heart rate", HEART_RATE);
    }
    return told.reading() instanceof Reading.Measured measured && measured.scale().isPresent()
        ? codes.concept(
            words + ", scale " + inWords(measured.scale().get()), name, measured.scale().get())
        : codes.concept(words, name);
  }

  private static String inWords(String name) {
    return name.replace('_', ' ');
  }

  private Map<String, Object> pressure(Map<String, Told> both, Duration taken) {
    Told first = both.values().iterator().next();
    boolean wrong =
        both.values().stream().allMatch(told -> told.status().equals("entered-in-error"));
    boolean amended = both.values().stream().anyMatch(told -> !told.status().equals("final"));
    String status = wrong ? "entered-in-error" : amended ? "amended" : "final";
    Map<String, Object> observation =
        vitalSign("bp", status, codes.concept("Blood pressure", "pressure"), taken);
    List<Object> components = new ArrayList<>();
    components.add(pressure("Systolic blood pressure", SYSTOLIC, both, wrong));
    components.add(pressure("Diastolic blood pressure", DIASTOLIC, both, wrong));
    observation.put("component", components);
    where(observation, first.posture(), taken);
    return observation;
  }

  private Map<String, Object> pressure(
      String words, String name, Map<String, Told> both, boolean wrong) {
    Told told = both.get(name);
    Map<String, Object> code = codes.concept(words, name);
    if (told == null
        || (!wrong && told.status().equals("entered-in-error"))
        || !(told.reading() instanceof Reading.Measured measured)) {
      return component(
          code,
          "dataAbsentReason",
          map(
              "coding",
              List.of(
                  map(
                      "system",
                      "http://terminology.hl7.org/CodeSystem/data-absent-reason",
                      "code",
                      "unknown"))));
    }
    double mmHg = measured.value().in(Unit.MMHG);
    return component(code, "valueQuantity", quantity(Quantity.of(mmHg, Unit.MMHG), codes));
  }

  // Stage and time in it, or the posture before the test. The profile of vital signs takes no other
  // units in components than its own, seconds not among them: there both stand in a note.
  private void where(Map<String, Object> observation, Optional<Posture> posture, Duration taken) {
    posture.ifPresent(
        how ->
            observation.put("note", List.of(words("Taken " + how.word() + ", before the test."))));
    stageAt(taken)
        .ifPresent(
            stage -> {
              Duration since = taken.minus(stage.start());
              if (observation.containsKey("meta")) {
                observation.put(
                    "note",
                    List.of(
                        words("Stage " + stage.id() + ", time in stage " + Times.clock(since))));
              } else {
                observation.put("component", List.of(stage(stage.id()), time(since)));
              }
            });
  }

  // A reading at the very end of a stage is one of that stage.
  private Optional<StageResult> stageAt(Duration taken) {
    return outcome.stages().stream()
        .filter(stage -> taken.compareTo(stage.start()) > 0)
        .filter(stage -> taken.compareTo(stage.start().plus(stage.lasted())) <= 0)
        .findFirst();
  }

  private Map<String, Object> stage(String id) {
    return component(codes.concept("Protocol stage", "stage"), "valueString", id);
  }

  private Map<String, Object> time(Duration time) {
    return component(
        codes.concept("Time in stage", "time_in_stage"), "valueQuantity", seconds(time));
  }

  private Map<String, Object> seconds(Duration time) {
    return quantity(Quantity.of(time.toMillis() / 1000.0, Unit.SECOND), codes);
  }

  private Map<String, Object> load(StageResult stage) {
    Map<String, Object> observation =
        observation("final", "procedure", words("Load of stage " + stage.id()), stage.start());
    List<Object> components = new ArrayList<>();
    components.add(stage(stage.id()));
    components.add(time(stage.lasted()));
    for (Loading load : stage.loads()) {
      components.add(
          component(
              codes.concept(
                  load.ramp().isPresent()
                      ? inWords(load.name()) + " at the beginning"
                      : inWords(load.name()),
                  load.name()),
              "valueQuantity",
              quantity(load.value(), codes)));
    }
    observation.put("component", components);
    return observation;
  }

  private Map<String, Object> duration() {
    StageResult first = outcome.stages().get(0);
    StageResult last = outcome.stages().get(outcome.stages().size() - 1);
    Duration end = last.start().plus(last.lasted());
    Map<String, Object> observation =
        observation(
            "final", "procedure", codes.concept("Exercise duration", "exercise_duration"), end);
    observation.put("valueQuantity", seconds(end.minus(first.start())));
    return observation;
  }

  private Map<String, Object> result(Estimate.Available estimate) {
    boolean byWeight = estimate.vo2max().kind() == Kind.UPTAKE;
    String words = "Aerobic capacity, estimated (" + inWords(estimate.id()) + ")";
    return workedOut(
        byWeight ? codes.concept(words, "capacity") : words(words),
        estimate.vo2max(),
        estimate.interval(),
        estimate.assumes(),
        estimate.cautions());
  }

  // There is no code for a result that a protocol declares for itself: its title stands for it.
  private Map<String, Object> result(Result result) {
    Map<String, Object> observation =
        workedOut(
            words(result.title() + ", estimated (" + inWords(result.id()) + ")"),
            result.value().orElseThrow(),
            result.interval(),
            result.assumes(),
            result.cautions());
    result
        .reference()
        .ifPresent(expected -> observation.put("referenceRange", List.of(range(expected))));
    return observation;
  }

  private Map<String, Object> range(Result.Compared expected) {
    Map<String, Object> range = new LinkedHashMap<>();
    expected.lower().ifPresent(low -> range.put("low", quantity(low, codes)));
    expected.upper().ifPresent(high -> range.put("high", quantity(high, codes)));
    range.put("text", "expected " + expected.value() + "; " + expected.source());
    return range;
  }

  private Map<String, Object> workedOut(
      Map<String, Object> code,
      Quantity value,
      Optional<Interval> around,
      String assumes,
      List<String> cautions) {
    Duration end = Duration.ZERO;
    for (StageResult stage : outcome.stages()) {
      end = stage.start().plus(stage.lasted());
    }
    Map<String, Object> observation = observation("final", "exam", code, end);
    observation.put("valueQuantity", quantity(value, codes));
    List<Object> notes = new ArrayList<>();
    cautions.forEach(caution -> notes.add(words(caution)));
    notes.add(words("An estimate is not a measurement."));
    observation.put("note", notes);
    observation.put("method", words(assumes.isEmpty() ? "estimated" : "estimated: " + assumes));
    around.ifPresent(interval -> observation.put("component", List.of(interval(interval))));
    return observation;
  }

  private Map<String, Object> interval(Interval interval) {
    return component(
        words("95 % interval"),
        "valueRange",
        map("low", quantity(interval.low(), codes), "high", quantity(interval.high(), codes)));
  }
}
