package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Every structure that a protocol can have loads. */
class StructuresTest {

  static Stream<String> names() {
    return Structures.NAMES.stream();
  }

  @ParameterizedTest
  @MethodSource("names")
  void itLoads(String name) {
    assertThat(Structures.of(name).id()).isEqualTo(name);
  }
}
