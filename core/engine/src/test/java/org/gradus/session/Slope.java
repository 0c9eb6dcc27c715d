package org.gradus.session;

import static org.gradus.session.Times.at;

import java.util.List;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;

/**
 * An invented walk in two stages, to be given rules that are looked at at any time. Of the person
 * the age is known, 40 years, and nothing else.
 */
final class Slope {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: slope
      version: 1.0.0
      title: An invented walk in two stages
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
        systolic: { kind: pressure, range: 40 mmHg to 320 mmHg, step: 2 mmHg }
        diastolic: { kind: pressure, range: 20 mmHg to 200 mmHg, below: systolic }
      define:
        limit: { value: if sex is female then 120 bpm else 150 bpm, source: practice }
        spread: { value: 1 / ((age in years) - 40), source: practice }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure:
        - { read: heart_rate, each: 1 min, late: 1 min, if_missing: go_on }
        - { read: [systolic, diastolic], before_end: 20 s, late: 60 s, if_missing: go_on }
      stages:
        - { id: low, lasts: 2 min, speed: 3 km/h }
        - { id: high, lasts: 2 min, speed: 4 km/h }
      stage_end: [{ id: next, rule: advance }]
      any_time:
      """;

  private Slope() {}

  /** A test that has just begun, with these rules. */
  static Session walk(String... rules) {
    String file =
        FILE + String.join("", List.of(rules).stream().map("  - %s\n"::formatted).toList());
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("slope.yaml", file))).protocol("slope"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }
}
