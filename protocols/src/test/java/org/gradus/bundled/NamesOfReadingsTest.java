package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.util.List;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.junit.jupiter.api.Test;

/** A name given to a reading is no signal: what is read has to be declared. */
class NamesOfReadingsTest {

  private static final String PULSE = "  - { read: heart_rate, each: 1 min, over: 15 s, valid_for";

  @Test
  void aReadingOfItselfIsRefused() {
    assertThat(
            new InventedWalk()
                .with(
                    PULSE,
                    "  - { read: end_rate, before_end: 5 s, as: end_rate, if_missing: finish }\n"
                        + PULSE)
                .faults())
        .containsExactly("G309 \"end_rate\" there is no signal called end_rate");
  }

  @Test
  void twoReadingsOfEachOtherAreRefused() {
    assertThat(
            new InventedWalk()
                .with(
                    PULSE,
                    "  - { read: first, before_end: 5 s, as: second }\n"
                        + "  - { read: second, before_end: 5 s, as: first }\n"
                        + PULSE)
                .faults())
        .containsExactly(
            "G309 \"first\" there is no signal called first",
            "G309 \"second\" there is no signal called second");
  }

  @Test
  void soItIsInABundledFile() {
    List<SourceFile> files =
        Bundled.files().stream()
            .map(
                file ->
                    file.name().startsWith("track-jog-1mile")
                        ? SourceFile.of(
                            file.name(),
                            file.text().replace("read: heart_rate", "read: final_rate"))
                        : file)
            .toList();
    FileRefused refused =
        catchThrowableOfType(
            FileRefused.class, () -> Library.of(files).protocol("track-jog-1mile"));
    assertThat(refused.diagnostics())
        .extracting(Diagnostic::message)
        .containsExactly("there is no signal called final_rate");
  }
}
