package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Times.at;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.junit.jupiter.api.Test;

/** A stop that was told and followed is said again on fresh grounds, and not before. */
class FollowedStopTest {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: dune
      version: 1.0.0
      title: An invented walk with a recovery
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
        systolic: { kind: pressure, range: 40 mmHg to 320 mmHg, step: 2 mmHg }
        diastolic: { kind: pressure, range: 20 mmHg to 200 mmHg, below: systolic }
      signs:
        dizzy: { watch: Dizzy }
        pale: { watch: Pale, lasts: until withdrawn }
        knee: { ask: How is the knee?, graded: 0 to 4 }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure:
        - { read: heart_rate, each: 1 min, late: 1 min, if_missing: go_on }
        - { read: [systolic, diastolic], before_end: 20 s, late: 60 s, if_missing: go_on }
      stages:
        - { id: low, lasts: 10 min, speed: 3 km/h }
      stage_end: [{ id: next, rule: advance }]
      recovery:
        stages: [{ id: sit, lasts: until_end, load: none }]
        measure:
          - { read: heart_rate, each: 1 min }
          - { read: [systolic, diastolic], each: 2 min, takes: 20 s }
        rules: [{ id: calm, rule: end when recovery.time >= 1 min and heart_rate < 100 bpm }]
        at_most: 10 min
      any_time:
      """;

  private static Session walk(String... rules) {
    String file =
        FILE + String.join("", List.of(rules).stream().map("  - %s\n"::formatted).toList());
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("dune.yaml", file))).protocol("dune"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static String rule(Decision decision) {
    String because = decision.because().map(why -> " " + why.rule()).orElse("");
    return decision.verdict().word() + because;
  }

  @Test
  void aSignThatLastsStopsOnceAndAgainWhenItIsReportedAgain() {
    Session session = walk("{ id: pale, rule: stop when pale }");
    session.follow(session.report(at("1:00"), "pale"));
    assertThat(rule(session.decide(at("1:00")))).isEqualTo("CONTINUE");
    assertThat(rule(session.record(at("2:10"), heartRate(90)))).isEqualTo("CONTINUE");
    assertThat(rule(session.report(at("2:20"), "pale"))).isEqualTo("STOP pale");
  }

  private static List<Agenda.Symptom> toBeAskedFor(Decision decision) {
    return decision.agenda().symptoms();
  }

  @Test
  void recoveryEndsOnceTheSymptomThatTheExerciseWasStoppedForHasGone() {
    for (String sign : List.of("dizzy", "pale")) {
      Session session = walk("{ id: stops, rule: stop when dizzy or pale }");
      session.follow(session.report(at("1:00"), sign));
      Decision calm = session.record(at("3:00"), heartRate(80));
      assertThat(rule(calm)).isEqualTo("CONTINUE");
      assertThat(toBeAskedFor(calm)).extracting(Agenda.Symptom::sign).containsExactly(sign);
      assertThat(rule(session.withdraw(at("3:10"), sign, "asked, and gone"))).isEqualTo("END calm");
    }
  }

  @Test
  void aGradedSymptomHasGoneWithGradeZero() {
    Session session = walk("{ id: knee, rule: stop when knee >= 3 }");
    session.follow(session.report(at("1:00"), "knee", 3));
    session.record(at("3:00"), heartRate(80));
    assertThat(rule(session.report(at("3:10"), "knee", 1))).isEqualTo("CONTINUE");
    assertThat(rule(session.report(at("3:20"), "knee", 0))).isEqualTo("END calm");
  }

  @Test
  void whoseSymptomIsNotKnownToHaveGoneHasNotRecoveredAtTheLimit() {
    Session session = walk("{ id: dizzy, rule: stop when dizzy }");
    session.follow(session.report(at("1:00"), "dizzy"));
    session.record(at("10:30"), heartRate(80));
    Verdict limit = session.decide(at("11:00")).verdict();
    assertThat(((Verdict.NotRecovered) limit).unmet())
        .containsExactly("dizzy: not known to have gone; ask, and withdraw it when it has");
  }

  @Test
  void aStopThatIsNotAlarmingOrRestsOnAReadingAsksForNoSymptom() {
    Session session =
        walk(
            "{ id: wish, rule: stop when dizzy, during: stages, alarming: no }",
            "{ id: fast, rule: stop when heart_rate > 180 bpm }");
    session.record(at("0:50"), heartRate(190));
    session.follow(session.report(at("1:00"), "dizzy"));
    assertThat(rule(session.record(at("3:00"), heartRate(80)))).isEqualTo("END calm");
  }

  @Test
  void theSymptomOfAStopThatIsLookedAtInStagesOnlyHasToGoToo() {
    Session session = walk("{ id: dizzy, rule: stop when dizzy, during: stages }");
    session.follow(session.report(at("1:00"), "dizzy"));
    assertThat(rule(session.record(at("3:00"), heartRate(80)))).isEqualTo("CONTINUE");
    assertThat(rule(session.withdraw(at("3:10"), "dizzy", "asked, gone"))).isEqualTo("END calm");
  }

  @Test
  void aSymptomThatWasReportedByMistakeIsNotAskedFor() {
    Session session = walk("{ id: dizzy, rule: stop when dizzy }");
    session.report(at("1:00"), "dizzy");
    int told = session.events().size();
    session.follow(session.decide(at("1:00")));
    session.record(at("3:00"), heartRate(80));
    assertThat(rule(session.reject(at("3:10"), told, "dizzy", "the wrong key")))
        .isEqualTo("END calm");
  }

  @Test
  void aSignThatWasWithdrawnAndComesBackStopsAgain() {
    Session session = walk("{ id: pale, rule: stop when pale }");
    session.follow(session.report(at("1:00"), "pale"));
    session.withdraw(at("1:30"), "pale", "has colour again");
    assertThat(rule(session.report(at("2:20"), "pale"))).isEqualTo("STOP pale");
  }

  @Test
  void aClockThatRunsOnIsNoFreshGround() {
    Session session = walk("{ id: long, rule: stop when test.time >= 90 s }");
    session.follow(session.decide(at("1:30")));
    assertThat(rule(session.decide(at("1:30")))).isEqualTo("CONTINUE");
    assertThat(rule(session.decide(at("5:00")))).isEqualTo("CONTINUE");
  }

  @Test
  void everyStopThatHoldsIsFollowedWithTheOneThatIsTold() {
    Session session =
        walk(
            "{ id: upper, rule: stop when systolic > 250 mmHg, confirm: 60 s }",
            "{ id: lower, rule: stop when diastolic > 115 mmHg, confirm: 60 s }",
            "{ id: dizzy, rule: stop when dizzy, then: rest }");
    session.record(at("1:00"), pressure(260, 120));
    session.record(at("1:20"), pressure(260, 120));
    Decision stop = session.report(at("1:30"), "dizzy");
    assertThat(rule(stop)).isEqualTo("STOP upper");
    session.follow(stop);
    assertThat(rule(session.decide(at("1:30")))).isEqualTo("CONTINUE");
    session.withdraw(at("2:00"), "dizzy", "clear again");
    assertThat(rule(session.record(at("3:30"), heartRate(90), pressure(140, 80))))
        .isEqualTo("END calm");
  }

  @Test
  void whatStillWaitsForASecondReadingGoesOnWaitingAfterAnotherStop() {
    Session session =
        walk(
            "{ id: upper, rule: stop when systolic > 250 mmHg, confirm: 60 s }",
            "{ id: dizzy, rule: stop when dizzy, then: rest }");
    session.record(at("1:00"), pressure(260, 90));
    session.follow(session.report(at("1:10"), "dizzy"));
    assertThat(rule(session.decide(at("1:20")))).isEqualTo("MEASURE upper");
    assertThat(rule(session.decide(at("2:00")))).isEqualTo("STOP upper");
  }

  @Test
  void aFollowedStopWhoseReadingIsPutRightLeavesTheRuleFreeToSpeak() {
    Session session = walk("{ id: fast, rule: stop when heart_rate > 180 bpm }");
    session.record(at("1:00"), heartRate(190));
    int told = session.events().size();
    session.follow(session.decide(at("1:00")));
    session.amend(at("1:10"), told, heartRate(109), "misread");
    assertThat(rule(session.record(at("2:00"), heartRate(185)))).isEqualTo("STOP fast");
    assertThat(session.outcome().ending()).isEqualTo(Optional.empty());
  }
}
