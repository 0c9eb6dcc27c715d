package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.rule.answer.Gap;
import org.junit.jupiter.api.Test;

/** A pulse told while the decision of a stage is overdue counts for every end that lacks it. */
class OverdueReadingTest {

  private static final String FILE =
      """
      format: 1
      kind: protocol
      id: levels
      version: 1.0.0
      title: An invented walk that looks half a minute back
      ergometer: treadmill
      purpose: submaximal
      for: { age: 18 years to 65 years, needs: [age] }
      signals:
        heart_rate: { kind: heart_rate, range: 25 bpm to 250 bpm, step: 1 bpm }
      before:
        rules: [{ id: slowed, rule: defer when lowers_heart_rate }]
      measure:
        - { read: heart_rate, each: 30 s, within: 15 s, if_missing: wait }
      stages:
        - { id: low, lasts: 2 min, speed: 3 km/h }
        - { id: high, lasts: 2 min, speed: 4 km/h }
      stage_end:
        - { id: unsteady, rule: "finish when abs(change(heart_rate, 30 s)) > 5 bpm" }
        - { id: next, rule: advance }
      unmeasured: { wait: 90 s, then: finish }
      """;

  private static Session walk() {
    Session session =
        Session.open(
            Library.of(List.of(SourceFile.of("levels.yaml", FILE))).protocol("levels"),
            Person.builder().age(40).lowersHeartRate(false).build());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  private static List<Gap> asked(Decision decision) {
    return ((Verdict.Measure) decision.verdict()).gaps();
  }

  @Test
  void afterTwoMissedPulsesItIsNotAskedForAgainInTheSameSecond() {
    Session session = walk();
    assertThat(asked(session.decide(at("2:40"))))
        .extracting(Gap::settle)
        .contains(new Gap.Settle.Now());
    Decision told = session.record(at("2:40"), heartRate(110));
    assertThat(asked(told)).extracting(Gap::settle).containsExactly(new Gap.Settle.At(at("3:00")));
    assertThat(session.record(at("3:00"), heartRate(112)).verdict())
        .isInstanceOf(Verdict.Advance.class);
  }

  @Test
  void theEndThatHasAnEarlierPulseIsDecidedAtOnce() {
    Session session = walk();
    session.record(at("1:30"), heartRate(108));
    assertThat(session.record(at("2:40"), heartRate(110)).verdict())
        .isInstanceOf(Verdict.Advance.class);
  }

  @Test
  void onePulseThatStandsForTwoEndsIsNoChangeOfNothing() {
    Session session = walk();
    Decision told = session.record(at("2:40"), heartRate(110));
    assertThat(told.because().map(Because::rule)).isEqualTo(Optional.empty());
    assertThat(told.verdict()).isInstanceOf(Verdict.Measure.class);
  }
}
