package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Each guarantee of core/GUARANTEES.md names tests, and the tests are there. */
class GuaranteesTest {

  private static final Path TOP = Path.of("..");
  private static final Pattern NAMED = Pattern.compile("`(\\w+)\\.(\\w+)`");

  @Test
  void everyGuaranteeNamesTestsThatExist() throws IOException {
    Map<String, Path> sources = tests();
    List<String> rows =
        Files.readAllLines(TOP.resolve("core/GUARANTEES.md")).stream()
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

  private static Map<String, Path> tests() throws IOException {
    Map<String, Path> tests = new HashMap<>();
    Files.walkFileTree(
        TOP,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            String name = folder.getFileName().toString();
            boolean skipped = name.equals("target") || name.equals(".git");
            return skipped ? FileVisitResult.SKIP_SUBTREE : FileVisitResult.CONTINUE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) {
            String name = file.getFileName().toString();
            if (name.endsWith("Test.java") && file.toString().contains("/src/test/java/")) {
              tests.put(name.replace(".java", ""), file);
            }
            return FileVisitResult.CONTINUE;
          }
        });
    return tests;
  }
}
