package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Each guarantee of core/GUARANTEES.md names tests, and the tests are there. */
class GuaranteesTest {

  private static final Pattern NAMED = Pattern.compile("`(\\w+)\\.(\\w+)`");

  @Test
  void everyGuaranteeNamesTestsThatExist() throws IOException {
    Map<String, Path> sources = JavaSources.byClass();
    List<String> rows =
        Files.readAllLines(JavaSources.TOP.resolve("core/GUARANTEES.md")).stream()
            .filter(line -> line.startsWith("| ") && !line.startsWith("| guarantee"))
            .toList();
    assertThat(rows).isNotEmpty();
    for (String row : rows) {
      List<MatchResult> named = NAMED.matcher(row.split(" \\| ", 2)[1]).results().toList();
      assertThat(named).as(row).isNotEmpty();
      for (MatchResult test : named) {
        assertThat(sources).as(row).containsKey(test.group(1));
        assertThat(Files.readString(sources.get(test.group(1))))
            .as(row)
            .containsPattern("void " + test.group(2) + "\\(");
      }
    }
  }
}
