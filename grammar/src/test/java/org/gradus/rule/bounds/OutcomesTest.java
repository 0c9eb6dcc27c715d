package org.gradus.rule.bounds;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a condition could come to, and when that is one answer. */
class OutcomesTest {

  @ParameterizedTest
  @CsvSource({
    "false, false, false, false",
    "true, false, false, true",
    "false, true, false, true",
    "false, false, true, true",
    "true, true, false, false",
    "true, false, true, false",
    "false, true, true, false",
    "true, true, true, false",
  })
  void oneAnswerIsCertain(boolean holds, boolean fails, boolean unknown, boolean certain) {
    assertThat(new Outcomes(holds, fails, unknown).isCertain()).isEqualTo(certain);
  }
}
