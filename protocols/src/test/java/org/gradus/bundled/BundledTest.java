package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
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
  void theIndexesNameEveryFile() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      Map<Boolean, List<String>> names =
          files
              .map(file -> file.getFileName().toString())
              .filter(name -> name.endsWith(".yaml"))
              .sorted()
              .collect(Collectors.partitioningBy(name -> name.endsWith(".cases.yaml")));
      assertThat(Bundled.files()).extracting(SourceFile::name).isEqualTo(names.get(false));
      assertThat(Bundled.cases()).extracting(SourceFile::name).isEqualTo(names.get(true));
    }
  }
}
