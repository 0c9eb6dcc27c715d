package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The longest test is a figure of the file. */
class LongestTest {

  private static final String WAIT = "rule: hold 1 min at most 2 times when not steady";

  @Test
  void itHasAllStagesHoldsAndWaitsAndTheRecovery() {
    int stage = 180 + 2 * 60 + 90;
    assertThat(Meadow.walk(Meadow.WALK).longest()).hasSeconds(4 * stage + 600);
  }

  @Test
  void holdsOfOneStageShareTheirCountAndTheLongestCountFirst() {
    String walk =
        Meadow.edit(Meadow.WALK, WAIT, WAIT + " }\n  - { rule: hold 3 min at most 1 time");
    int stage = 180 + 180 + 60 + 90;
    assertThat(Meadow.walk(walk).longest()).hasSeconds(4 * stage + 600);
  }
}
