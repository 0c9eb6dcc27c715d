package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import org.gradus.library.Library;
import org.junit.jupiter.api.Test;

class BundledTest {

  private final Library library = Bundled.library();

  @Test
  void theStandardWalkLoads() {
    assertThat(library.protocols()).containsExactly("graded-walk-standard");
    assertThat(library.protocol("graded-walk-standard").stages()).hasSize(7);
  }
}
