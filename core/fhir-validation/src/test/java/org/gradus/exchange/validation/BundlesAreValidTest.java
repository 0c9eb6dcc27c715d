package org.gradus.exchange.validation;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import ca.uhn.fhir.validation.FhirValidator;
import ca.uhn.fhir.validation.ResultSeverityEnum;
import ca.uhn.fhir.validation.SingleValidationMessage;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
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
import org.hl7.fhir.common.hapi.validation.support.CommonCodeSystemsTerminologyService;
import org.hl7.fhir.common.hapi.validation.support.InMemoryTerminologyServerValidationSupport;
import org.hl7.fhir.common.hapi.validation.support.ValidationSupportChain;
import org.hl7.fhir.common.hapi.validation.validator.FhirInstanceValidator;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.TestInstance;

/** A validator of FHIR R4 takes the bundles of all cases, and refuses planted faults. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BundlesAreValidTest {

  private static final OffsetDateTime START = OffsetDateTime.parse("2026-03-02T10:00:00+01:00");
  private static final String CASES = ".cases.yaml";

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

  @TestFactory
  List<DynamicTest> everyCaseOfEveryProtocolGivesAValidBundle() {
    return library.protocols().stream()
        .map(id -> DynamicTest.dynamicTest(id, () -> allAreValid(id)))
        .toList();
  }

  private void allAreValid(String id) {
    List<Case> cases = cases(id);
    assertThat(cases).isNotEmpty();
    for (Case one : cases) {
      if (one.expected().errors().isEmpty()) {
        assertThat(errors(bundle(one.play(library)))).as(id + " " + one.id()).isEmpty();
      }
    }
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

  @Test
  void valuesAreReadBackAsTheSessionHasThem() {
    Session session = whole();
    Bundle bundle = (Bundle) context.newJsonParser().parseResource(bundle(session));
    List<Observation> observations =
        bundle.getEntry().stream()
            .map(Bundle.BundleEntryComponent::getResource)
            .filter(Observation.class::isInstance)
            .map(Observation.class::cast)
            .toList();
    assertThat(values(observations, "8867-4")).isEqualTo(told(session, "heart_rate"));
    assertThat(components(observations, "8480-6")).isEqualTo(told(session, "systolic"));
    Estimate.Available best = Capacity.of(session.outcome()).headline().orElseThrow();
    Observation result =
        observations.stream()
            .filter(one -> one.getCode().getText().contains(best.id().replace('_', ' ')))
            .findFirst()
            .orElseThrow();
    assertThat(result.getValueQuantity().getValue().doubleValue())
        .isCloseTo(best.vo2max().amount(), within(1e-4));
    assertThat(result.getComponent().get(0).getValueRange().getLow().getValue().doubleValue())
        .isCloseTo(best.interval().orElseThrow().low().amount(), within(1e-4));
    assertThat(result.getComponent().get(0).getValueRange().getHigh().getValue().doubleValue())
        .isCloseTo(best.interval().orElseThrow().high().amount(), within(1e-4));
  }

  private static List<Double> values(List<Observation> observations, String code) {
    return observations.stream()
        .filter(one -> one.getCode().hasCoding("http://loinc.org", code))
        .map(one -> one.getValueQuantity().getValue().doubleValue())
        .toList();
  }

  private static List<Double> components(List<Observation> observations, String code) {
    return observations.stream()
        .flatMap(one -> one.getComponent().stream())
        .filter(one -> one.getCode().hasCoding("http://loinc.org", code) && one.hasValueQuantity())
        .map(one -> one.getValueQuantity().getValue().doubleValue())
        .toList();
  }

  private static List<Double> told(Session session, String signal) {
    List<Double> values = new ArrayList<>();
    for (Event event : session.events()) {
      if (event instanceof Event.Read read) {
        for (Reading reading : read.readings()) {
          Reading bare =
              reading instanceof Reading.Baseline baseline ? baseline.reading() : reading;
          if (bare.subject().equals(signal) && bare instanceof Reading.Measured measured) {
            values.add(measured.value().amount());
          }
        }
      }
    }
    return values;
  }
}
