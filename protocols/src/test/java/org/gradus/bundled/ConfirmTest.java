package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Times.at;

import org.gradus.rule.answer.Gap;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** Only a second reading of what made a stop apply confirms it. */
class ConfirmTest {

  private static final String EITHER =
      "{ rule: stop when systolic > 240 mmHg or heart_rate > 140 bpm, id: high, confirm: 60 s, do:"
          + " Sit., source: own }";

  private static Session told(String rule) {
    return new InventedWalk().anyTime(rule).begun();
  }

  private static String asked(Decision decision) {
    assertThat(decision.verdict()).isInstanceOf(Verdict.Measure.class);
    return String.join(
        ", ", ((Verdict.Measure) decision.verdict()).gaps().stream().map(Gap::subject).toList());
  }

  private static String rule(Decision decision) {
    return decision.because().orElseThrow().rule();
  }

  @Test
  void aSignCannotBeConfirmed() {
    assertThat(
            new InventedWalk()
                .anyTime(
                    "{ rule: stop when faint, id: faints, confirm: 60 s, do: Sit., source: own }")
                .faults())
        .containsExactly(
            "G302 \"stop when faint\" confirm is not a key of a rule that asks for no reading");
  }

  @Test
  void aSignBesideAReadingStopsAtOnce() {
    Session session =
        told(
            "{ rule: stop when faint or systolic > 240 mmHg, id: high, confirm: 60 s, do: Sit.,"
                + " source: own }");
    Decision seen = session.report(at("0:30"), "faint");
    assertThat(seen.verdict()).isInstanceOf(Verdict.Stop.class);
    assertThat(rule(seen)).isEqualTo("high");
  }

  @Test
  void anOrdinaryPulseDoesNotConfirmACuff() {
    Session session = told(EITHER);
    assertThat(asked(session.record(at("2:15"), pressure(246, 90)))).isEqualTo("systolic");
    assertThat(asked(session.record(at("2:20"), heartRate(120)))).isEqualTo("systolic");
    Decision again = session.record(at("2:40"), pressure(244, 90));
    assertThat(again.verdict()).isInstanceOf(Verdict.Stop.class);
    assertThat(rule(again)).isEqualTo("high");
  }

  @Test
  void aPulseThatIsHighForTheFirstTimeConfirmsNoCuff() {
    Session session = told(EITHER);
    session.record(at("2:15"), pressure(246, 90));
    assertThat(asked(session.record(at("2:20"), heartRate(145)))).isEqualTo("heart_rate, systolic");
    // The cuff was a slip, and the pulse waits for its own second reading.
    assertThat(asked(session.record(at("2:40"), pressure(140, 90)))).isEqualTo("heart_rate");
    assertThat(session.decide(at("3:19")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(session.decide(at("3:20")).verdict()).isInstanceOf(Verdict.Stop.class);
  }

  @Test
  void whatHoldsByTwoReadingsNeedsBothAgain() {
    Session session =
        told(
            "{ rule: stop when systolic > 220 mmHg and heart_rate > 140 bpm, id: both, confirm: 90 s,"
                + " do: Sit., source: own }");
    session.record(at("2:00"), heartRate(145));
    assertThat(asked(session.record(at("2:15"), pressure(226, 90))))
        .isEqualTo("heart_rate, systolic");
    assertThat(asked(session.record(at("2:30"), heartRate(146)))).isEqualTo("systolic");
    assertThat(session.record(at("2:50"), pressure(228, 92)).verdict())
        .isInstanceOf(Verdict.Stop.class);
  }

  @Test
  void withoutASecondReadingItCountsWhenTheWaitIsOver() {
    Session session = told(EITHER);
    session.record(at("2:15"), pressure(246, 90));
    session.record(at("3:00"), heartRate(120));
    assertThat(session.decide(at("3:14")).verdict()).isInstanceOf(Verdict.Measure.class);
    assertThat(session.decide(at("3:15")).verdict()).isInstanceOf(Verdict.Stop.class);
  }
}
