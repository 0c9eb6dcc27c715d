package org.gradus.examples.kotlin

import org.assertj.core.api.Assertions.assertThat
import org.junit.jupiter.api.Test

class FirstStageTest {

  @Test
  fun itGoesOnToTheSecondStage() {
    assertThat(firstStage())
        .containsExactly("Begin with walk_1.", "Go on until 3:00.", "Go on to walk_2.")
  }
}
