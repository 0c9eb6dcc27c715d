package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** A class that a page names exists under that name, and so does the method beside it. */
class DocumentNamesTest {

  // A class of ours, perhaps with its package before it and a member of it after it; no file such
  // as
  // `Gradus.g4`.
  private static final Pattern CLASS =
      Pattern.compile(
          "`(?!java\\.)(?:[a-z]+\\.)*([A-Z][A-Za-z]*[a-z][A-Za-z]*)(?!\\.g4)(?:\\.(\\w+))?`");

  @Test
  void theContributorsPageNamesClassesThatExist() throws IOException {
    Map<String, Path> sources = JavaSources.byClass();
    Set<String> unknown = new TreeSet<>();
    String page = Files.readString(JavaSources.TOP.resolve("DEVELOPERS.md"));
    for (MatchResult name : CLASS.matcher(page).results().toList()) {
      Path source = sources.get(name.group(1));
      boolean known =
          source != null
              && (name.group(2) == null
                  || Pattern.compile("\\b" + name.group(2) + "\\b")
                      .matcher(Files.readString(source))
                      .find());
      if (!known) {
        unknown.add(name.group());
      }
    }
    assertThat(unknown).isEmpty();
  }
}
