package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.gradus.diagnostic.SourceFile;
import org.junit.jupiter.api.Test;

class BundledTest {

  private static final Path FOLDER = Path.of("src/main/resources/org/gradus/bundled");

  @Test
  void theBundledFilesLoad() {
    assertThat(Bundled.library().protocols()).contains("graded-walk-standard", "cycle-branching");
  }

  @Test
  void theIndexNamesEveryFile() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      List<String> names =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".yaml"))
              .sorted()
              .toList();
      assertThat(Bundled.files()).extracting(SourceFile::name).containsExactlyElementsOf(names);
    }
  }
}
