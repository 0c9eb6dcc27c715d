package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.gradus.cases.CaseReport;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.review.Review;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The protocol of the tutorial loads, does what its cases say, and is refused as shown. */
class TutorialTest {

  private static final String NAME = "two-walks";

  private final String readme = read();
  private final String protocol = block("yaml", 0);
  private final String cases = block("yaml", 1);

  private static String read() {
    try {
      String text = Files.readString(Path.of("README.md"));
      return text.substring(text.indexOf("## A protocol from nothing"));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private String block(String language, int number) {
    String fence = "\n```" + language + "\n";
    int from = readme.indexOf(fence);
    for (int i = 0; i < number; i++) {
      from = readme.indexOf(fence, from + 1);
    }
    return readme.substring(from + fence.length(), readme.indexOf("\n```\n", from + 1) + 1);
  }

  private static Library library(Path folder, String text) throws IOException {
    Files.writeString(folder.resolve(NAME + ".yaml"), text);
    return Library.of(Bundled.files()).and(folder);
  }

  @Test
  void itsCasesGoAsTheySay(@TempDir Path folder) throws IOException {
    Library library = library(folder, protocol);
    CaseReport report = Cases.read(SourceFile.of(NAME + ".cases.yaml", cases)).run(library);
    assertThat(report.failures()).isEmpty();
    assertThat(report.coverage().neverReached()).isEmpty();
    assertThat(report.coverage().fired()).contains("longer", "next", "chest-pain");
  }

  @Test
  void aReviewFindsNothing(@TempDir Path folder) throws IOException {
    assertThat(Review.of(library(folder, protocol).protocol(NAME)).findings()).isEmpty();
  }

  @Test
  void theSlipIsToldAsShown(@TempDir Path folder) {
    String slip = protocol.replace("{ read: heart_rate,", "{ read: hart_rate,");
    FileRefused refused = catchThrowableOfType(FileRefused.class, () -> library(folder, slip));
    assertThat(readme).contains("```\n" + refused.getMessage() + "\n```");
  }
}
