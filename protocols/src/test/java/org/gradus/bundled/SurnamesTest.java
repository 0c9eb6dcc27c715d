package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Surnames stand inside citations only: in no id, key, label, title, file name, Java identifier or
 * running text. The whole repository is searched for every surname that occurs in a citation.
 */
class SurnamesTest {

  private static final Path TOP = Path.of("..").toAbsolutePath().normalize();
  private static final String MAXIMA =
      "protocols/src/main/resources/org/gradus/bundled/age-predicted-maxima.yaml";
  private static final Pattern TEXT =
      Pattern.compile(".*\\.(java|yaml|csv|md|json|xml|txt|g4|properties|cmd|html)");

  // Words of packages, of libraries, of HTML and of German that happen to be surnames.
  private static final Pattern NO_SURNAMES =
      Pattern.compile(
          "\\b(?:java|com)(?:\\.[a-z]+)+|\\bcommons-\\w+3\\b|(?i:\\bjackson\\b(?!-\\d|, ))"
              + "|\\blang\\b(?=[ .=])");
  // What stands there is a citation, whatever its form.
  private static final Pattern CITED =
      Pattern.compile(
          "(?<=source: )(\"[^\"]* [^\"]*\"|'[^']* [^']*'|[^\"',}\\n]+ [^ ,}\\n][^,}\\n]*)");
  private static final Pattern SOURCES = Pattern.compile("(?m)^sources:\\n((?:  .*\\n|\\n)*)");
  private static final Pattern AFTER_KEY = Pattern.compile("(?m)(?<=^  [\\w-]{1,60}:) .*$");
  // The one file that still knows the ids of earlier versions, here and in what versions left.
  private static final Pattern REPLACES = Pattern.compile("(?m)^    replaces: .*$");

  private static final Map<String, String> files = new TreeMap<>();
  private static Surnames surnames = Surnames.in(List.of());

  @BeforeAll
  static void readAll() throws IOException {
    Files.walkFileTree(
        TOP,
        new SimpleFileVisitor<>() {
          @Override
          public FileVisitResult preVisitDirectory(Path folder, BasicFileAttributes attributes) {
            String name = String.valueOf(folder.getFileName());
            boolean ours = folder.equals(TOP) || !(name.startsWith(".") || name.equals("target"));
            return ours ? FileVisitResult.CONTINUE : FileVisitResult.SKIP_SUBTREE;
          }

          @Override
          public FileVisitResult visitFile(Path file, BasicFileAttributes attributes)
              throws IOException {
            String path = TOP.relativize(file).toString().replace('\\', '/');
            boolean text = TEXT.matcher(path).matches();
            files.put(path, text ? Files.readString(file, StandardCharsets.UTF_8) : "");
            return FileVisitResult.CONTINUE;
          }
        });
    surnames = Surnames.in(List.copyOf(files.values()));
  }

  @Test
  void surnamesAreFoundInTheCitations() {
    // That many authors are cited; a list that is nearly empty would find nothing.
    assertThat(surnames.all()).hasSizeGreaterThan(60).doesNotContain("heart", "fit", "engl");
  }

  @Test
  void surnamesStandInCitationsOnly() {
    List<String> found = new ArrayList<>();
    files.forEach(
        (path, text) -> {
          surnames
              .outsideCitations(NO_SURNAMES.matcher(path).replaceAll(""))
              .forEach(one -> found.add("the name of " + path));
          surnames
              .outsideCitations(withoutCitations(path, text))
              .forEach(one -> found.add(path + ": " + one));
        });
    assertThat(found).isEmpty();
  }

  @Test
  void everyIdOfEarlierVersionsWouldBeFound() {
    List<String> old =
        REPLACES
            .matcher(files.getOrDefault(MAXIMA, ""))
            .results()
            .map(line -> line.group().replace("replaces:", "").strip())
            .toList();
    assertThat(old).hasSize(18);
    for (String id : old) {
      assertThat(foundIn("x.yaml", "max_heart_rate:\n  - " + id + "\n")).isNotEmpty();
      assertThat(foundIn("x.yaml", "costs:\n  - id: " + id + "\n")).isNotEmpty();
      assertThat(foundIn("x.md", "as with `" + id + "`")).isNotEmpty();
      assertThat(surnames.outsideCitations("core/" + id + ".yaml")).isNotEmpty();
    }
  }

  @Test
  void asKeyOrIdentifierOrWordASurnameIsFound() {
    for (String name : surnames.all()) {
      String capital = name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1);
      assertThat(foundIn("x.yaml", "sources:\n  " + name + "-1973: A paper, 1973.\n"))
          .as(name)
          .isNotEmpty();
      assertThat(foundIn("x.yaml", "rules: [{ id: a, source: " + name + "-1973 }]"))
          .as(name)
          .isNotEmpty();
      assertThat(foundIn("X.java", "int " + name + "Rule;")).as(name).isNotEmpty();
      assertThat(foundIn("X.java", "void rule" + capital + "() {}")).as(name).isNotEmpty();
      assertThat(foundIn("X.java", "int RULE_" + name.toUpperCase(Locale.ROOT) + ";")).isNotEmpty();
      assertThat(foundIn("x.md", "the equation of " + capital + ", 1973")).as(name).isNotEmpty();
      assertThat(foundIn("x.md", capital + " AB, 1973")).isEmpty();
      assertThat(foundIn("x.yaml", "sources:\n  key: After " + capital + ".\n")).isEmpty();
    }
  }

  private static List<String> foundIn(String path, String text) {
    return surnames.outsideCitations(withoutCitations(path, text));
  }

  private static String withoutCitations(String path, String text) {
    String rest = NO_SURNAMES.matcher(text).replaceAll("");
    if (path.endsWith("/" + MAXIMA.substring(MAXIMA.lastIndexOf('/') + 1))) {
      rest = REPLACES.matcher(rest).replaceAll("");
    }
    if (path.endsWith(".yaml")) {
      rest = CITED.matcher(rest).replaceAll("a citation");
      rest = SOURCES.matcher(rest).replaceAll(found -> quoted(found.group()));
    }
    return rest;
  }

  private static String quoted(String sources) {
    return Matcher.quoteReplacement(AFTER_KEY.matcher(sources).replaceAll(""));
  }
}
