package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.time.Duration;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Several stops wait for the same second reading, each for its own time. */
class SecondReadingTest {

  private static final String LONG =
      "{ id: long, rule: stop when heart_rate < 85 bpm, confirm: 45 s }";
  private static final String SHORT =
      "{ id: short, rule: stop when stage.time < 95 s and heart_rate < 90 bpm, confirm: 20 s }";

  private static String rule(Decision decision) {
    return decision.because().orElseThrow().rule();
  }

  private static Optional<Duration> until(Decision decision) {
    return ((Verdict.Measure) decision.verdict()).until();
  }

  @Test
  void theRuleThatWaitsShortestIsNamedWithItsOwnTime() {
    Decision first = Slope.walk(LONG, SHORT).record(at("1:00"), heartRate(50));
    assertThat(rule(first)).isEqualTo("short");
    assertThat(until(first)).contains(at("1:20"));
  }

  @Test
  void onceItHoldsNoLongerTheOtherOneWaitsOnForItsOwnTime() {
    Session session = Slope.walk(LONG, SHORT);
    Decision first = session.record(at("1:30"), heartRate(50));
    assertThat(rule(first)).isEqualTo("short");
    Decision then = session.decide(until(first).orElseThrow());
    assertThat(rule(then)).isEqualTo("long");
    assertThat(until(then)).contains(at("2:15"));
    assertThat(session.decide(at("2:15")).verdict()).isInstanceOf(Verdict.Stop.class);
  }
}
