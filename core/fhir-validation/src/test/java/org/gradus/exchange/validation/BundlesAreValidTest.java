package org.gradus.exchange.validation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.cases.Case;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.SourceFile;
import org.gradus.exchange.fhir.FhirBundle;
import org.gradus.exchange.fhir.FhirOptions;
import org.gradus.library.Library;
import org.gradus.report.Report;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.training.Training;
import org.gradus.unit.Quantity;
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CodeSystem;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.ValueSet;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.TestInstance;

/** A validator of FHIR R4 takes the bundles of all cases, and refuses planted faults. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BundlesAreValidTest {

  private static final OffsetDateTime START = OffsetDateTime.parse("2026-03-02T10:00:00+01:00");
  private static final String CASES = ".cases.yaml";
  private static final String LOINC = "http://loinc.org";
  private static final String DICOM = "http://dicom.nema.org/resources/ontology/DCM";

  private final Library library = Bundled.library();
  private final FhirContext context = FhirContext.forR4();
  private final FhirValidator validator =
      context
          .newValidator()
          .registerValidatorModule(
              new FhirInstanceValidator(
                  new ValidationSupportChain(
                      new DefaultProfileValidationSupport(context),
                      new InMemoryTerminologyServerValidationSupport(context),
                      new CommonCodeSystemsTerminologyService(context))));

  private List<String> errors(String json) {
    return validator.validateWithResult(json).getMessages().stream()
        .filter(BundlesAreValidTest::isError)
        .map(message -> message.getLocationString() + ": " + message.getMessage())
        .toList();
  }

  private static boolean isError(SingleValidationMessage message) {
    return message.getSeverity() == ResultSeverityEnum.ERROR
        || message.getSeverity() == ResultSeverityEnum.FATAL;
  }

  private String bundle(Session session) {
    Capacity capacity = Capacity.of(session.outcome());
    return FhirBundle.of(
        session,
        FhirOptions.at(START)
            .patient("Patient/7")
            .performer("an invented tester")
            .plan(Training.plan(capacity, library.bands("bands-2011")))
            .html(Report.of(session).html()));
  }

  private List<Case> cases(String id) {
    List<Case> cases = new ArrayList<>();
    for (SourceFile file : Bundled.cases()) {
      if (file.name().equals(id + CASES)) {
        cases.addAll(Cases.read(file).cases());
      }
    }
    return cases;
  }

  private List<Session> played(String id) {
    List<Session> played =
        cases(id).stream()
            .filter(one -> one.expected().errors().isEmpty())
            .map(one -> one.play(library))
            .toList();
    assertThat(played).as(id).isNotEmpty();
    return played;
  }

  @TestFactory
  List<DynamicTest> everyCaseOfEveryProtocolGivesAValidBundle() {
    return library.protocols().stream()
        .map(
            id ->
                DynamicTest.dynamicTest(
                    id,
                    () ->
                        played(id)
                            .forEach(session -> assertThat(errors(bundle(session))).isEmpty())))
        .toList();
  }

  @TestFactory
  List<DynamicTest> everyCaseOfEveryProtocolIsReadBackAsTheSessionHasIt() {
    return library.protocols().stream()
        .map(
            id ->
                DynamicTest.dynamicTest(
                    id,
                    () ->
                        played(id)
                            .forEach(
                                session -> assertSame(readBack(bundle(session)), asTold(session)))))
        .toList();
  }

  private Session whole() {
    return cases("graded-walk-standard").stream()
        .filter(one -> one.expected().errors().isEmpty())
        .map(one -> one.play(library))
        .filter(session -> Capacity.of(session.outcome()).headline().isPresent())
        .findFirst()
        .orElseThrow();
  }

  @Test
  void plantedFaultsAreRefused() {
    String json = bundle(whole());
    assertThat(errors(json)).isEmpty();
    for (String[] fault :
        List.of(
            new String[] {"\"code\": \"/min\"", "\"code\": \"/s\""},
            new String[] {"\"code\": \"/min\"", "\"code\": \"bpm!!\""},
            new String[] {"\"code\": \"mL/kg/min\"", "\"code\": \"mlO2/kg/min\""},
            new String[] {"\"code\": \"8867-4\"", "\"code\": \"8867-5\""},
            new String[] {"\"code\": \"8480-6\"", "\"code\": \"8480-7\""},
            new String[] {"\"status\": \"final\"", "\"status\": \"finished\""},
            new String[] {"\"resourceType\": \"Procedure\"", "\"resourceType\": \"Procedures\""})) {
      assertThat(json).contains(fault[0]);
      assertThat(errors(json.replace(fault[0], fault[1]))).as(fault[1]).isNotEmpty();
    }
  }

  // A check that could not fail would prove nothing.
  @Test
  void aValueThatWasChangedIsNoticed() {
    Session session = whole();
    String json = bundle(session);
    for (String[] change :
        List.of(
            new String[] {"\"value\": 64, \"unit\": \"bpm\"", "\"value\": 65, \"unit\": \"bpm\""},
            new String[] {"\"value\": 78, \"unit\": \"mmHg\"", "\"value\": 79, \"unit\": \"mmHg\""},
            new String[] {
              "\"effectiveDateTime\": \"2026-03-02T10:00:00",
              "\"effectiveDateTime\": \"2026-03-02T10:00:01"
            },
            new String[] {"95 % interval", "90 % interval"})) {
      assertThat(json).contains(change[0]);
      Told changed = readBack(json.replace(change[0], change[1]));
      assertThatThrownBy(() -> assertSame(changed, asTold(session)))
          .as(change[1])
          .isInstanceOf(AssertionError.class);
    }
  }

  /**
   * What a test comes to, whether a bundle or its session says it.
   *
   * @param rates heart rates with their times
   * @param pressures both with their times; no number where one of them is missing
   * @param results each estimate: value, and both ends of its interval if it has one
   */
  private record Told(List<String> rates, List<String> pressures, Map<String, double[]> results) {}

  private static void assertSame(Told found, Told expected) {
    assertThat(found.rates()).isEqualTo(expected.rates());
    assertThat(found.pressures()).isEqualTo(expected.pressures());
    assertThat(found.results()).containsOnlyKeys(expected.results().keySet());
    found
        .results()
        .forEach(
            (name, values) ->
                assertThat(values)
                    .as(name)
                    .containsExactly(expected.results().get(name), within(1e-4)));
  }

  private static String number(double value) {
    return String.format(Locale.ROOT, "%.3f", value);
  }

  private static String timed(OffsetDateTime time, String value) {
    return time.toInstant() + " " + value;
  }

  private Told readBack(String json) {
    List<String> rates = new ArrayList<>();
    List<String> pressures = new ArrayList<>();
    Map<String, double[]> results = new TreeMap<>();
    Bundle bundle = (Bundle) context.newJsonParser().parseResource(json);
    for (Bundle.BundleEntryComponent entry : bundle.getEntry()) {
      if (entry.getResource() instanceof Observation one
          && one.getStatus() != Observation.ObservationStatus.ENTEREDINERROR) {
        if (one.getCode().hasCoding(LOINC, "8867-4")) {
          rates.add(timed(time(one), number(one.getValueQuantity())));
        } else if (one.getCode().hasCoding(LOINC, "85354-9")) {
          pressures.add(timed(time(one), part(one, "8480-6") + "/" + part(one, "8462-4")));
        } else if (one.getMethod().getText() != null
            && one.getMethod().getText().startsWith("estimated")) {
          results.put(name(one), result(one));
        }
      }
    }
    return new Told(rates, pressures, results);
  }

  private static OffsetDateTime time(Observation one) {
    return one.getEffectiveDateTimeType().getValue().toInstant().atOffset(START.getOffset());
  }

  private static String number(org.hl7.fhir.r4.model.Quantity quantity) {
    return number(quantity.getValue().doubleValue());
  }

  private static String part(Observation pressure, String code) {
    return pressure.getComponent().stream()
        .filter(part -> part.getCode().hasCoding(LOINC, code) && part.hasValueQuantity())
        .map(part -> number(part.getValueQuantity()))
        .findFirst()
        .orElse("");
  }

  private static String name(Observation result) {
    String text = result.getCode().getText();
    return text.substring(text.lastIndexOf('(') + 1, text.lastIndexOf(')'));
  }

  private static double[] result(Observation result) {
    List<Double> values =
        new ArrayList<>(List.of(result.getValueQuantity().getValue().doubleValue()));
    for (Observation.ObservationComponentComponent part : result.getComponent()) {
      if ("95 % interval".equals(part.getCode().getText())) {
        values.add(part.getValueRange().getLow().getValue().doubleValue());
        values.add(part.getValueRange().getHigh().getValue().doubleValue());
      }
    }
    return array(values);
  }

  private static double[] array(List<Double> values) {
    return values.stream().mapToDouble(value -> value).toArray();
  }

  private Told asTold(Session session) {
    List<String> rates = new ArrayList<>();
    List<String> pressures = new ArrayList<>();
    for (Event event : Event.counted(session.events())) {
      if (event instanceof Event.Read read) {
        OffsetDateTime time = START.plus(read.taken());
        Map<String, Map<String, String>> cuffs = new LinkedHashMap<>();
        for (Reading reading : read.readings()) {
          String posture =
              reading instanceof Reading.Baseline baseline ? baseline.posture().word() : "";
          Reading bare =
              reading instanceof Reading.Baseline baseline ? baseline.reading() : reading;
          if (!(bare instanceof Reading.Measured measured)) {
            continue;
          }
          String value = number(measured.value().amount());
          if (bare.subject().equals("heart_rate")) {
            rates.add(timed(time, value));
          } else if (List.of("systolic", "diastolic").contains(bare.subject())) {
            cuffs.computeIfAbsent(posture, key -> new LinkedHashMap<>()).put(bare.subject(), value);
          }
        }
        cuffs
            .values()
            .forEach(
                cuff ->
                    pressures.add(
                        timed(
                            time,
                            cuff.getOrDefault("systolic", "")
                                + "/"
                                + cuff.getOrDefault("diastolic", ""))));
      }
    }
    Map<String, double[]> results = new TreeMap<>();
    for (Estimate estimate : Capacity.of(session.outcome()).estimates()) {
      if (estimate instanceof Estimate.Available available) {
        results.put(inWords(available.id()), numbers(available.vo2max(), available.interval()));
      }
    }
    for (Result result : Capacity.of(session.outcome()).results()) {
      if (result.isAvailable()) {
        results.put(inWords(result.id()), numbers(result.value().orElseThrow(), result.interval()));
      }
    }
    return new Told(rates, pressures, results);
  }

  private static String inWords(String id) {
    return id.replace('_', ' ');
  }

  private static double[] numbers(Quantity value, Optional<Interval> interval) {
    List<Double> values = new ArrayList<>(List.of(value.amount()));
    interval.ifPresent(
        both -> {
          values.add(both.low().amount());
          values.add(both.high().amount());
        });
    return array(values);
  }

  /** A code of {@code codes.yaml}. */
  private record Code(String system, String code) {}

  // What comes with the validator holds all terms of DICOM, and of LOINC those that value sets of
  // the
  // standard list. Nothing offline lists the others; codes.yaml says how far they were checked.
  @Test
  void theCodesAreMembersOfTheirSystemsAsFarAsTheStandardListsThem() throws IOException {
    Set<Code> members = members();
    assertThat(members).contains(new Code(LOINC, "8867-4"), new Code(DICOM, "122702"));
    assertThat(members).doesNotContain(new Code(LOINC, "8867-5"), new Code(DICOM, "999999"));
    List<Code> written = written();
    assertThat(written).hasSizeGreaterThan(15);
    assertThat(written.stream().filter(code -> code.system().equals(DICOM)))
        .isNotEmpty()
        .allSatisfy(code -> assertThat(members).contains(code));
    assertThat(written.stream().filter(code -> !members.contains(code)))
        .containsExactlyInAnyOrder(
            new Code(LOINC, "40443-4"),
            new Code(LOINC, "94122-9"),
            new Code(LOINC, "55411-3"),
            new Code("http://snomed.info/sct", "165079009"));
  }

  private static List<Code> written() throws IOException {
    try (InputStream stream = FhirBundle.class.getResourceAsStream("codes.yaml")) {
      String text = new String(stream.readAllBytes(), StandardCharsets.UTF_8);
      return Pattern.compile("system: \"([^\"]+)\", code: \"?([0-9-]+)")
          .matcher(text)
          .results()
          .map(found -> new Code(found.group(1), found.group(2)))
          .toList();
    }
  }

  // The code systems and value sets of the standard, as they come with the validator.
  private Bundle definitions() throws IOException {
    try (InputStream stream =
        BundlesAreValidTest.class.getResourceAsStream(
            "/org/hl7/fhir/r4/model/valueset/valuesets.xml")) {
      return (Bundle) context.newXmlParser().parseResource(stream);
    }
  }

  private Set<Code> members() throws IOException {
    Set<Code> members = new HashSet<>();
    for (Bundle.BundleEntryComponent entry : definitions().getEntry()) {
      Resource resource = entry.getResource();
      if (resource instanceof CodeSystem system
          && system.getContent() == CodeSystem.CodeSystemContentMode.COMPLETE) {
        system.getConcept().forEach(term -> members.add(new Code(system.getUrl(), term.getCode())));
      } else if (resource instanceof ValueSet set) {
        for (ValueSet.ConceptSetComponent part : set.getCompose().getInclude()) {
          part.getConcept()
              .forEach(term -> members.add(new Code(part.getSystem(), term.getCode())));
        }
      }
    }
    return members;
  }
}
