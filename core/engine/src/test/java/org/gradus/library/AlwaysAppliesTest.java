package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.library.Meadow.wrongInWatch;

import org.junit.jupiter.api.Test;

/** What ends a test at any time says when. */
class AlwaysAppliesTest {

  @Test
  void aStopOrFinishThatAlwaysAppliesIsRefused() {
    assertThat(wrongInWatch("rule: stop when dizzy,", "rule: stop,"))
        .containsExactly("G303 \"stop\"");
    assertThat(wrongInWatch("rule: finish when effort > most_effort,", "rule: finish,"))
        .containsExactly("G303 \"finish\"");
  }

  @Test
  void soIsAStopOfRecovery() {
    assertThat(
            wrongInWatch(
                "    - { id: calm,", "    - { id: at-once, rule: stop }\n    - { id: calm,"))
        .containsExactly("G303 \"stop\"");
  }

  @Test
  void toEndRecoveryAndToCautionMayAlwaysApply() {
    assertThat(wrongInWatch("rule: end when heart_rate < resting.heart_rate + 20 bpm", "rule: end"))
        .isEmpty();
  }
}
