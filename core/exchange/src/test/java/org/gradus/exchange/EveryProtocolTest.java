package org.gradus.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.DoubleStream;
import org.gradus.bundled.Bundled;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.capacity.Result;
import org.gradus.cases.Case;
import org.gradus.cases.Cases;
import org.gradus.exchange.fhir.FhirBundle;
import org.gradus.exchange.fhir.FhirOptions;
import org.gradus.exchange.fhir.FhirReadings;
import org.gradus.exchange.table.TestTable;
import org.gradus.internal.json.JsonLimits;
import org.gradus.internal.json.JsonReader;
import org.gradus.library.Library;
import org.gradus.protocol.Assessment;
import org.gradus.session.Event;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * All cases of every bundled protocol go out as tables and bundles and come in again as they were.
 * The profile {@code fhir-validation} of the build reads the same bundles by another library.
 */
class EveryProtocolTest {

  private static final Library LIBRARY = Bundled.library();
  private static final OffsetDateTime START = OffsetDateTime.parse("2026-03-02T10:00:00+01:00");
  private static final JsonLimits JSON = new JsonLimits(64, 50_000_000, true, BigDecimal::new);

  static List<String> protocols() {
    return LIBRARY.protocols();
  }

  private static List<Session> played(String protocol) {
    List<Session> played =
        Bundled.cases().stream()
            .filter(file -> file.name().equals(protocol + ".cases.yaml"))
            .flatMap(file -> Cases.read(file).cases().stream())
            .filter(one -> one.expected().errors().isEmpty())
            .map((Case one) -> one.play(LIBRARY))
            .toList();
    assertThat(played).hasSizeGreaterThan(3);
    return played;
  }

  @ParameterizedTest
  @MethodSource("protocols")
  void aTableImportsToTheSameDecisionsAndResults(String protocol) {
    for (Session session : played(protocol)) {
      Session again = TestTable.read(TestTable.write(session), LIBRARY);
      assertThat(decisions(again)).isEqualTo(decisions(session));
      assertThat(Capacity.of(again.outcome())).isEqualTo(Capacity.of(session.outcome()));
    }
  }

  private static List<String> decisions(Session session) {
    List<String> decisions = new ArrayList<>();
    Session.retell(
        session.protocol(),
        session.outcome().person(),
        session.events(),
        (number, event, answer) -> decisions.add(number + " " + event + " " + answer));
    return decisions;
  }

  @ParameterizedTest
  @MethodSource("protocols")
  void aBundleHoldsTheHeartRatesAndPressuresAsTheyCount(String protocol) {
    for (Session session : played(protocol)) {
      FhirReadings read = FhirReadings.from(bundle(session));
      assertThat(
              read.readings().stream()
                  .flatMap(one -> one.reading().parts().stream().map(part -> words(one, part))))
          .containsExactlyInAnyOrderElementsOf(counted(session));
    }
  }

  private static String words(FhirReadings.Dated dated, Reading part) {
    return dated.time().orElseThrow().toInstant() + " " + words((Reading.Measured) part);
  }

  private static String words(Reading.Measured measured) {
    return measured.subject() + " " + (float) measured.value().amount();
  }

  private static List<String> counted(Session session) {
    List<String> counted = new ArrayList<>();
    for (Event event : Event.counted(session.events())) {
      if (event instanceof Event.Read read) {
        for (Reading reading : read.readings()) {
          Reading bare =
              reading instanceof Reading.Baseline baseline ? baseline.reading() : reading;
          if (bare instanceof Reading.Measured measured
              && List.of("heart_rate", "systolic", "diastolic").contains(bare.subject())) {
            counted.add(START.plus(read.taken()).toInstant() + " " + words(measured));
          }
        }
      }
    }
    return counted;
  }

  @ParameterizedTest
  @MethodSource("protocols")
  void aBundleHoldsEachResultWithItsInterval(String protocol) {
    boolean any = false;
    for (Session session : played(protocol)) {
      Capacity capacity = Capacity.of(session.outcome());
      double[] expected =
          DoubleStream.concat(
                  capacity.estimates().stream()
                      .filter(Estimate.Available.class::isInstance)
                      .map(Estimate.Available.class::cast)
                      .flatMapToDouble(one -> numbers(one.vo2max(), one.interval())),
                  capacity.results().stream()
                      .filter(Result::isAvailable)
                      .flatMapToDouble(one -> numbers(one.value().orElseThrow(), one.interval())))
              .toArray();
      assertThat(results(bundle(session))).containsExactly(expected, within(1e-4));
      any |= expected.length > 0;
    }
    Assessment assessment = LIBRARY.protocol(protocol).assessment();
    assertThat(any).isEqualTo(!assessment.estimates().isEmpty() || !assessment.results().isEmpty());
  }

  private static DoubleStream numbers(Quantity value, Optional<Interval> interval) {
    return DoubleStream.concat(
        DoubleStream.of(value.amount()),
        interval.stream()
            .flatMapToDouble(both -> DoubleStream.of(both.low().amount(), both.high().amount())));
  }

  private static double[] results(String bundle) {
    List<Double> results = new ArrayList<>();
    for (Object entry : (List<?>) part(JsonReader.read(bundle, JSON), "entry")) {
      Map<?, ?> resource = (Map<?, ?>) part(entry, "resource");
      if (resource.get("method") != null) {
        results.add(value(part(resource, "valueQuantity")));
        if (resource.get("component") instanceof List<?> parts) {
          Object range = part(parts.get(0), "valueRange");
          results.add(value(part(range, "low")));
          results.add(value(part(range, "high")));
        }
      }
    }
    return results.stream().mapToDouble(number -> number).toArray();
  }

  private static Object part(Object json, String name) {
    return Objects.requireNonNull(((Map<?, ?>) json).get(name), name);
  }

  private static double value(Object quantity) {
    return ((BigDecimal) part(quantity, "value")).doubleValue();
  }

  private static String bundle(Session session) {
    return FhirBundle.of(session, FhirOptions.at(START));
  }
}
