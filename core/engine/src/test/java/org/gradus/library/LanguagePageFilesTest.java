package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.FileRefused;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** What LANGUAGE.md says of files and of tests that run is what happens. */
class LanguagePageFilesTest {

  private static final LanguagePage PAGE = LanguagePage.read();

  private static List<LanguagePage.Block> changes() {
    return PAGE.changes();
  }

  private static List<LanguagePage.Told> tests() {
    return PAGE.tests();
  }

  @Test
  void theFilesLoadAsTheyAre() {
    assertThat(LanguagePage.library(PAGE.files).protocol("slope-walk")).isNotNull();
  }

  @ParameterizedTest
  @MethodSource("changes")
  void aChangedFileLoadsOrIsRefusedAsShown(LanguagePage.Block change) {
    assertThat(refusal(change)).isEqualTo(change.error());
  }

  static Optional<String> refusal(LanguagePage.Block change) {
    FileRefused refused =
        catchThrowableOfType(FileRefused.class, () -> LanguagePage.library(PAGE.changed(change)));
    return Optional.ofNullable(refused).map(Throwable::getMessage);
  }

  @ParameterizedTest
  @MethodSource("tests")
  void aTestGoesAsShown(LanguagePage.Told test) {
    assertThat(new LanguagePageRun(test.files()).run(test.block().text()))
        .isEqualTo(test.block().error());
  }
}
