package org.gradus.surface;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * Whatever hosts can use of the rule language and the engine stands in {@code api.txt}, so that
 * every change of it shows in a diff.
 */
class PublicSurfaceTest {

  private static final Path LISTED = Path.of("api.txt");
  private static final Path FOUND = Path.of("target", "api.txt");

  private static List<String> found() throws IOException {
    return new Surface(
            List.of(
                Path.of("..", "..", "grammar", "src", "main", "java"), Path.of("src/main/java")))
        .lines();
  }

  @Test
  void theSurfaceIsWhatIsListed() throws IOException {
    List<String> found = found();
    List<String> listed = Files.exists(LISTED) ? Files.readAllLines(LISTED) : List.of();
    if (!found.equals(listed)) {
      Files.createDirectories(FOUND.toAbsolutePath().getParent());
      Files.write(FOUND, found);
      fail(
          "%s%nWhat hosts can use has changed. If it is meant: cp core/engine/%s core/engine/%s",
          String.join("\n", changes(listed, found)), FOUND, LISTED);
    }
  }

  /** Each member that is gone or new, with its type; where only the order changed, nothing. */
  static List<String> changes(List<String> before, List<String> after) {
    Set<String> gone = whole(before);
    Set<String> added = whole(after);
    gone.removeAll(whole(after));
    added.removeAll(whole(before));
    List<String> changes = new ArrayList<>();
    gone.forEach(line -> changes.add("- " + line));
    added.forEach(line -> changes.add("+ " + line));
    return changes;
  }

  private static Set<String> whole(List<String> lines) {
    Set<String> whole = new TreeSet<>();
    String type = "";
    for (String line : lines) {
      if (line.startsWith(" ")) {
        whole.add(type + ":" + line.substring(1));
      } else {
        type = line.split(" ", 2)[0];
        whole.add(line);
      }
    }
    return whole;
  }

  @Test
  void whatIsGoneAndWhatIsNewIsSaidWithItsType() {
    List<String> before = List.of("a.B final class", "  int one()", "a.C record", "  int one()");
    List<String> after = List.of("a.B final class", "  int two()", "a.C record", "  int one()");
    assertThat(changes(before, after)).containsExactly("- a.B: int one()", "+ a.B: int two()");
  }

  @Test
  void closedPackagesAreNotListed() throws IOException {
    assertThat(found())
        .anyMatch(line -> line.startsWith("org.gradus.session.Session "))
        .anyMatch(line -> line.startsWith("org.gradus.rule.answer.Gap "))
        .noneMatch(line -> line.startsWith("org.gradus.internal."))
        .noneMatch(line -> line.startsWith("org.gradus.rule.plan."));
  }
}
