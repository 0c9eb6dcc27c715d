package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.cases.Case;
import org.gradus.cases.Cases;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.SourceFile;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Session;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Records and protocol files of each version, in {@code compat/VERSION}, are read by this one. A
 * folder of a released version is never changed; that of the version in work is made again with
 * {@link #main} as long as nobody has its records.
 */
class CompatibilityTest {

  private static final Path COMPAT = Path.of("src/test/resources/compat");
  private static final List<String> PROTOCOLS =
      List.of(
          "cycle-25w-steps", "graded-walk-standard", "row-steps", "run-1.5mile", "step-3min-41cm");

  // Of each protocol, the longest of its cases.
  private static final int MOST = 3;

  static Stream<Path> versions() throws IOException {
    return sorted(COMPAT).stream();
  }

  @ParameterizedTest
  @MethodSource("versions")
  void recordsOfEachVersionAreReadAndRunToTheSameDecisions(Path version) throws IOException {
    Library library = Library.load(version.resolve("files"));
    List<Path> records = sorted(version.resolve("records"));
    assertThat(records).hasSizeGreaterThanOrEqualTo(PROTOCOLS.size());
    for (Path file : records) {
      String text = Files.readString(file);
      TestRecord record = TestRecord.parse(file.getFileName().toString(), text);
      assertThat(record.verify(library)).as(file.toString()).isEmpty();
      Session resumed = record.resume(library, (number, event, answer) -> {});
      assertThat(resumed.events()).hasSize(record.entries().size());
    }
  }

  private static List<Path> sorted(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.sorted().toList();
    }
  }

  /**
   * Makes the folder of a version from the bundled files and their cases: {@code compat/VERSION}.
   *
   * @param version its number
   */
  public static void main(String... version) throws IOException {
    Path folder = COMPAT.resolve(version[0]);
    Library library = Bundled.library();
    Files.createDirectories(folder.resolve("records"));
    Files.createDirectories(folder.resolve("files"));
    for (String protocol : PROTOCOLS) {
      for (SourceFile file : library.filesOf(protocol)) {
        Files.writeString(folder.resolve("files").resolve(file.name()), file.text());
      }
      List<Session> played = new ArrayList<>();
      for (SourceFile file : Bundled.cases()) {
        Cases cases = Cases.read(file);
        if (cases.protocol().equals(protocol)) {
          cases.cases().forEach(one -> played(one, library).ifPresent(played::add));
        }
      }
      played.sort(Comparator.comparingInt(one -> -one.events().size()));
      for (int i = 0; i < Math.min(MOST, played.size()); i++) {
        Path record = folder.resolve("records").resolve(protocol + "-" + (i + 1) + ".jsonl");
        Files.writeString(record, TestRecord.of(played.get(i), Optional.empty()).text());
      }
    }
  }

  // Some cases show that a test cannot begin.
  private static Optional<Session> played(Case one, Library library) {
    try {
      return Optional.of(one.play(library));
    } catch (GradusException refused) {
      return Optional.empty();
    }
  }
}
