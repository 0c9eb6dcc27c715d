package org.gradus.examples.console;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Every sentence of the console and its page stands in the table of words, and no other does. */
class PageWordsTest {

  private static final Path TABLE =
      Path.of("src/main/resources/org/gradus/examples/console/words.txt");
  private static final Pattern IN_PAGE = Pattern.compile("\\bt\\('((?:[^'\\\\]|\\\\.)*)'");
  private static final Pattern VERB = Pattern.compile("(?:open|over), '([^']+)'\\)");
  private static final Pattern SAID =
      Pattern.compile(
          "(?:words\\.say|words\\(exchange\\)\\s*\\.say)\\(\\s*\"((?:[^\"\\\\]|\\\\.)*)\"");
  private static final Pattern REFUSED =
      Pattern.compile("new Refusal\\(\\s*[0-9]+,\\s*\"((?:[^\"\\\\]|\\\\.)*)\"");

  // Postures and the word between two names are said by their values.
  private static final Set<String> BY_VALUE = Set.of("resting", "upright");

  private static Set<String> said() throws IOException {
    Set<String> said = new TreeSet<>(BY_VALUE);
    try (Stream<Path> files = Files.walk(Path.of("src/main"))) {
      for (Path file : files.filter(Files::isRegularFile).toList()) {
        String text = Files.readString(file);
        List<Pattern> patterns =
            file.toString().endsWith(".js")
                ? List.of(IN_PAGE, VERB)
                : file.toString().endsWith(".java") ? List.of(SAID, REFUSED) : List.of();
        for (Pattern pattern : patterns) {
          pattern.matcher(text).results().forEach(found -> said.add(found.group(1).strip()));
        }
      }
    }
    return said;
  }

  private static List<String[]> rows() throws IOException {
    return Files.readAllLines(TABLE).stream()
        .filter(line -> !line.startsWith("#"))
        .map(line -> line.split("\\|", -1))
        .toList();
  }

  @Test
  void theTableHasWhatIsSaidAndNothingElse() throws IOException {
    Set<String> table = new TreeSet<>();
    for (String[] row : rows()) {
      assertThat(row).as(row[0]).hasSize(3);
      assertThat(table.add(row[0].strip())).as("twice: " + row[0]).isTrue();
    }
    assertThat(table).isEqualTo(said());
  }

  @Test
  void everyTranslationSpeaksOfTheSame() throws IOException {
    Pattern place = Pattern.compile("\\{[0-9]}");
    for (String[] row : rows()) {
      for (String cell : row) {
        assertThat(place.matcher(cell).results().map(found -> found.group()).sorted().toList())
            .as(row[0])
            .isEqualTo(
                place.matcher(row[0]).results().map(found -> found.group()).sorted().toList());
        assertThat(cell).as(row[0]).isNotBlank();
      }
    }
  }
}
