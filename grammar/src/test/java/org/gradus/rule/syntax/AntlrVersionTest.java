package org.gradus.rule.syntax;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A host may bring an ANTLR runtime of its own. */
class AntlrVersionTest {

  @Test
  void theRuntimeThisIsBuiltWithFits() {
    assertThatCode(AntlrVersion::check).doesNotThrowAnyException();
  }

  @ParameterizedTest
  @ValueSource(strings = {"4.11", "4.11.1", "4.13.2", "4.20.0", "4.13.3-SNAPSHOT"})
  void laterOnesFit(String version) {
    assertThatCode(() -> AntlrVersion.check(version)).doesNotThrowAnyException();
  }

  @ParameterizedTest
  @ValueSource(strings = {"4.9.3", "4.7.2", "4.10.1", "3.5.3", "5.0", "40.13", "?", ""})
  void othersAreRefusedWithWhatToDo(String version) {
    assertThatThrownBy(() -> AntlrVersion.check(version))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageContaining("version " + version + " of org.antlr:antlr4-runtime")
        .hasMessageContaining("put version 4.13");
  }
}
