package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.util.ArrayList;
import java.util.List;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.capacity.Interval;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Person.Sex;
import org.gradus.protocol.Protocol;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/** What is missing is named where it is missing, and what has no spread does not count as exact. */
class MissingInputsTest {

  // Nothing rests on the age but the maximal heart rate of the estimate.
  private static final String AGELESS =
      """
      format: 1
      kind: protocol
      id: ageless
      version: 1.0.0
      title: Two walks of people whose age may be unknown
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 66 years, needs: [sex, mass], outside: caution }
      include: [common-signals]
      before: { rules: [defer when lowers_heart_rate] }
      sources: { own: Invented for this test. }
      max_heart_rate:
        - measured when known(measured_max_heart_rate)
        - general_1971
      define:
        usable: heart_rate < 85 % of max_heart_rate
      measure:
        - { read: heart_rate, before_end: 0 s, if_missing: wait }
      stages:
        - { id: slow, lasts: 3 min, speed: 4 km/h, grade: 2 %, source: own }
        - { id: brisk, lasts: 3 min, speed: 5 km/h, grade: 6 %, source: own }
      cost: walking
      stage_end: [advance]
      estimates:
        - id: line
          from: usable stages, at least 2
          vo2max: extrapolate(uptake, heart_rate, max_heart_rate)
          source: own
      """;

  private static Protocol edited(String file, String before, String after) {
    List<SourceFile> files =
        Bundled.files().stream()
            .map(
                source ->
                    source.name().endsWith(file)
                        ? SourceFile.of(source.name(), source.text().replace(before, after))
                        : source)
            .toList();
    return Library.of(files).protocol("graded-walk-standard");
  }

  // Without an age there is no ceiling, and without a ceiling no stage is known to be usable.
  @Test
  void aMissingAgeIsNamed() {
    List<SourceFile> files = new ArrayList<>(Bundled.files());
    files.add(SourceFile.of("ageless.yaml", AGELESS));
    Protocol ageless = Library.of(files).protocol("ageless");
    Person person =
        Person.builder().sex(Sex.FEMALE).mass(kg(71)).cleared(true).lowersHeartRate(false).build();
    Session session = Session.open(ageless, person);
    session.follow(session.decide(at("0:00")));
    session.record(at("3:00"), heartRate(116));
    session.follow(session.decide(at("3:00")));
    session.record(at("6:00"), heartRate(136));
    session.follow(session.decide(at("6:00")));
    Capacity capacity = Capacity.of(session.outcome());
    assertThat(capacity.estimate("line").orElseThrow().reasons())
        .containsExactly(
            "needs usable stages, at least 2; found 0; no age, so no maximal heart rate");
  }

  @Test
  void whatIsKnownAndDoesNotHoldIsNotCalledMissing() {
    Person person = Walked.person(46, Sex.FEMALE, 71).build();
    Capacity capacity = Capacity.of(Walked.walk(person, 90, 92).outcome());
    assertThat(capacity.estimate("stages_line").orElseThrow().reasons())
        .containsExactly("needs usable stages, at least 2; found 0");
  }

  // The walking equation without its own 7 %: of the others of speed and grade the running equation
  // has 7 %, so that nothing becomes narrower.
  @Test
  void anEquationWithoutASpreadTakesTheWidestOfItsKind() {
    String walking = "    range: speed between 50 m/min and 100 m/min\n";
    Protocol bare = edited("common-equations.yaml", walking + "    sd: 7 %\n", walking);
    Person person = Walked.person(46, Sex.FEMALE, 71).build();
    Estimate.Available best =
        Capacity.of(Walked.walk(bare, person, 116, 136).outcome()).headline().orElseThrow();
    Interval interval = best.interval().orElseThrow();
    assertThat(interval.shares())
        .extracting(Interval.Share::name)
        .contains("oxygen cost (walking)");
    assertThat(interval.sd())
        .isEqualTo(Walked.ines().headline().orElseThrow().interval().orElseThrow().sd());
    assertThat(best.cautions())
        .contains(
            "No spread between people is published for the walking equation; that of running, 7 %,"
                + " is taken, the widest of its kind.");
    assertThat(Walked.ines().headline().orElseThrow().cautions())
        .noneMatch(caution -> caution.startsWith("No spread"));
  }
}
