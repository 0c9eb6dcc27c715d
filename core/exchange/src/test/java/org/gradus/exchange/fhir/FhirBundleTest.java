package org.gradus.exchange.fhir;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatExceptionOfType;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.rating;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.cm;
import static org.gradus.unit.Quantities.kg;

import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.IntRange;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.training.Training;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** A test goes out as a bundle, and what stands in it is what the session says. */
class FhirBundleTest {

  private static final Library LIBRARY = Bundled.library();
  private static final OffsetDateTime START = OffsetDateTime.parse("2026-03-02T10:00:00+01:00");

  private static Session walk() {
    Person person =
        Person.builder()
            .age(46)
            .sex(Person.Sex.FEMALE)
            .mass(kg(71))
            .height(cm(168))
            .cleared(true)
            .lowersHeartRate(false)
            .build();
    Session session = Session.open(LIBRARY.protocol("graded-walk-standard"), person);
    session.record(
        at("0:00"),
        resting(heartRate(68)),
        resting(pressure(122, 78)),
        answer("unwell_today", false),
        answer("recent_event", false),
        answer("pregnant", false));
    session.follow(session.decide(at("0:00")));
    session.record(at("2:00"), heartRate(112));
    session.record(at("2:15"), pressure(140, 80));
    session.record(at("2:45"), rating(11, "rpe_6_20"));
    session.record(at("3:00"), heartRate(141));
    session.amend(at("3:00"), session.events().size(), heartRate(114), "misheard");
    session.follow(session.decide(at("3:00")));
    session.record(at("5:00"), heartRate(128));
    session.follow(session.report(at("5:10"), "chest_pain"));
    return session;
  }

  private static List<Map<?, ?>> resources(String json, String type) {
    List<Map<?, ?>> resources = new ArrayList<>();
    for (Object entry : (List<?>) part(ObservationReader.json(json), "entry")) {
      Map<?, ?> resource = (Map<?, ?>) part(entry, "resource");
      if (type.equals(resource.get("resourceType"))) {
        resources.add(resource);
      }
    }
    return resources;
  }

  /** What stands under these names and places. */
  private static Object part(Object json, Object... path) {
    Object part = json;
    for (Object step : path) {
      part =
          step instanceof Integer place
              ? ((List<?>) part).get(place)
              : Objects.requireNonNull(((Map<?, ?>) part).get(step), step.toString());
    }
    return part;
  }

  private static String bundle() {
    return FhirBundle.of(walk(), FhirOptions.at(START));
  }

  @Test
  void everyReadingIsReadBackAsItCounts() {
    FhirReadings read = FhirReadings.from(bundle());
    assertThat(read.readings())
        .map(FhirReadings.Dated::reading)
        .containsExactly(
            heartRate(68),
            pressure(122, 78),
            heartRate(112),
            pressure(140, 80),
            heartRate(114),
            heartRate(128));
    assertThat(read.readings().get(2).time())
        .contains(OffsetDateTime.parse("2026-03-02T10:02:00+01:00"));
    Person.Builder person = Person.builder();
    read.giveTo(person);
    assertThat(person.build().value(Attribute.MASS)).contains(kg(71));
    assertThat(person.build().value(Attribute.HEIGHT)).contains(cm(168));
    assertThat(read.skipped()).anyMatch(line -> line.contains("no Observation"));
  }

  @Test
  void theResultIsTheEstimateWithItsInterval() {
    Capacity capacity = Capacity.of(walk().outcome());
    Estimate.Available best = capacity.headline().orElseThrow();
    Interval interval = best.interval().orElseThrow();
    Map<?, ?> result =
        resources(bundle(), "Observation").stream()
            .filter(each -> each.get("method") != null)
            .findFirst()
            .orElseThrow();
    assertThat(value(part(result, "valueQuantity"))).isCloseTo(best.vo2max().amount(), NEAR);
    Object range = part(result, "component", 0, "valueRange");
    assertThat(value(part(range, "low"))).isCloseTo(interval.low().amount(), NEAR);
    assertThat(value(part(range, "high"))).isCloseTo(interval.high().amount(), NEAR);
    assertThat(part(result, "method", "text").toString()).startsWith("estimated");
  }

  private static final org.assertj.core.data.Offset<Double> NEAR =
      org.assertj.core.data.Offset.offset(1e-4);

  private static double value(Object quantity) {
    return ((BigDecimal) part(quantity, "value")).doubleValue();
  }

  @Test
  void aStopIsToldWithItsReason() {
    Map<?, ?> procedure = resources(bundle(), "Procedure").get(0);
    assertThat(procedure.get("status")).isEqualTo("stopped");
    assertThat(part(procedure, "statusReason").toString()).contains("chest-pain");
    assertThat(part(resources(bundle(), "QuestionnaireResponse"), 0, "item").toString())
        .contains("unwell_today");
  }

  @Test
  void aPlanAndAPageComeFromTheHost() {
    Session session = walk();
    Training plan =
        Training.plan(
            Capacity.of(session.outcome()).clearedAfterStop(), LIBRARY.bands("bands-2011"));
    String with =
        FhirBundle.of(
            session, FhirOptions.at(START).patient("Patient/7").plan(plan).html("<p>page</p>"));
    assertThat(part(resources(with, "CarePlan"), 0, "activity")).isNotNull();
    assertThat(part(resources(with, "DiagnosticReport"), 0, "presentedForm").toString())
        .contains(Base64.getEncoder().encodeToString("<p>page</p>".getBytes(UTF_8)));
    assertThat(with).contains("\"reference\": \"Patient/7\"");
    assertThat(bundle()).doesNotContain("Patient/").doesNotContain("CarePlan");
  }

  private static final java.nio.charset.Charset UTF_8 = java.nio.charset.StandardCharsets.UTF_8;

  @Test
  void provenanceNamesTheProtocolWithItsDigest() {
    String digest = LIBRARY.protocol("graded-walk-standard").heading().digest();
    assertThat(part(resources(bundle(), "Provenance"), 0, "entity").toString())
        .contains("graded-walk-standard", digest);
  }

  @Test
  void theSameTestGivesTheSameBundleAlsoFromItsRecord() {
    TestRecord record = TestRecord.of(walk(), Optional.empty());
    assertThat(FhirBundle.of(record, LIBRARY, FhirOptions.at(START))).isEqualTo(bundle());
  }

  @Test
  void everyUnitHasACode() {
    Codes codes = Codes.read();
    for (Unit unit : Unit.values()) {
      assertThat(codes.ucum(unit)).as(unit.symbol()).isNotEmpty();
    }
    assertThat(codes.concepts().values())
        .allSatisfy(coding -> assertThat(coding.status()).matches("(read|memory).*"));
  }

  @Test
  void aUnitOfAnotherKindIsRefusedWithItsPlace() {
    assertThatExceptionOfType(FhirRefused.class)
        .isThrownBy(
            () -> FhirReadings.from(bundle().replace("\"code\": \"/min\"", "\"code\": \"/s\"")))
        .satisfies(refused -> assertThat(refused.problems()).hasSize(4))
        .withMessageContaining("valueQuantity.code: is /s; give a UCUM unit, one of /min");
  }

  @Test
  void unitsAreConverted() {
    FhirReadings read =
        FhirReadings.from(
            """
            {"resourceType": "Observation", "status": "final", "issued": null,
             "code": {"coding": [{"system": "http://loinc.org", "code": "85354-9"}]},
             "component": [
              {"code": {"coding": [{"system": "http://loinc.org", "code": "8480-6"}]},
               "valueQuantity": {"value": 16, "system": "http://unitsofmeasure.org", "code": "kPa"}},
              {"code": {"coding": [{"system": "http://loinc.org", "code": "8462-4"}]},
               "valueQuantity": {"value": 80, "system": "http://unitsofmeasure.org", "code": "mm[Hg]"}}
             ]}
            """);
    Reading.Pressure pressure = (Reading.Pressure) read.readings().get(0).reading();
    // 1 kPa is 7.50062 mmHg.
    assertThat(pressure.systolic().value().amount())
        .isCloseTo(120.01, org.assertj.core.data.Offset.offset(0.01));
    assertThat(pressure.diastolic().value().amount()).isEqualTo(80);
  }

  @Provide
  Arbitrary<String> pieces() {
    return Arbitraries.oneOf(
        Arbitraries.of("", "{", "[", "\"", "null", "1e999", "\\u12", ",", "]"),
        Arbitraries.strings().ofMaxLength(6));
  }

  /** Written once. */
  private static final class Written {
    private static final String BUNDLE = bundle();
  }

  @Property(tries = 500)
  void noTextThrowsAnythingButARefusal(
      @ForAll @IntRange(max = 1_000_000) int place,
      @ForAll @IntRange(max = 12) int length,
      @ForAll("pieces") String piece) {
    String json = Written.BUNDLE;
    int from = place % json.length();
    String changed =
        json.substring(0, from) + piece + json.substring(Math.min(json.length(), from + length));
    try {
      assertThat(FhirReadings.from(changed)).isNotNull();
    } catch (FhirRefused refused) {
      assertThat(refused.problems()).isNotEmpty();
    }
  }
}
