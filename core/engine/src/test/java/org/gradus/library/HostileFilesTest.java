package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.io.ByteArrayInputStream;
import java.time.Duration;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.SourceFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that somebody means ill with are refused in one piece, and their messages stay short. */
class HostileFilesTest {

  // No measure of speed: an alarm for work that grows with the square of what is read.
  private static final Duration ALARM = Duration.ofSeconds(60);

  private static List<Diagnostic> found(String text) {
    try {
      Library.of(List.of(SourceFile.of("hostile.yaml", text)));
      return List.of();
    } catch (FileRefused refused) {
      assertThat(refused.toString().length()).isLessThan(2_000_000);
      return refused.diagnostics();
    }
  }

  private static List<String> codes(String text) {
    return found(text).stream().map(problem -> problem.code().name()).distinct().toList();
  }

  @ParameterizedTest
  @ValueSource(strings = {"[", "{a: ", "- ", "? ", "[{a: "})
  void nestedWithoutEnd(String opening) {
    assertThat(codes("a: " + opening.repeat(100_000))).hasSize(1).isSubsetOf("G308", "G301");
    assertThat(codes(opening.repeat(100_000))).hasSize(1).isSubsetOf("G308", "G301");
  }

  @Test
  void aliasesThatWouldGrowWithoutEndAreNotFollowed() {
    String bomb =
        IntStream.range(1, 30)
            .mapToObj(i -> "a%d: &a%d [*a%d, *a%d, *a%d]\n".formatted(i, i, i - 1, i - 1, i - 1))
            .collect(Collectors.joining("", "a0: &a0 lol\n", ""));
    assertThat(codes(bomb)).contains("G307");
    assertThat(codes("a: &a [*a, *a]\n")).contains("G307");
    assertThat(codes("a: &a { <<: *a, b: *a }\n")).contains("G307");
  }

  @Test
  void filesThatAreTooLargeAreRefusedAsAWhole() {
    assertThat(codes("a".repeat(1_000_001))).containsExactly("G308");
    assertThat(codes("- a\n".repeat(110_000))).containsExactly("G308");
    assertThat(codes("a: b\n".repeat(110_000))).isNotEmpty().isSubsetOf("G306", "G308");
    byte[] huge = new byte[5_000_000];
    assertThatThrownBy(() -> Library.file("huge.yaml", new ByteArrayInputStream(huge)))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("G308");
  }

  // A pattern that repeats a group goes one call deeper for each part of the text.
  @Test
  void idsOfManyPartsAreNoIds() {
    String parts = "-ab".repeat(100_000);
    assertThat(Meadow.wrong("id: meadow-walk", "id: meadow" + parts)).hasSize(1);
    assertThat(Meadow.wrong("title: A walk", "language: en" + parts + "\ntitle: A walk"))
        .hasSize(1);
    assertThat(Meadow.wrong("id: enough", "id: enough" + parts)).hasSize(1);
    assertThat(Meadow.wrong("  steady: abs", "  steady" + "_y".repeat(100_000) + ": abs"))
        .isNotEmpty();
  }

  @ParameterizedTest
  @ValueSource(ints = {0x80, 0xC0, 0xED, 0xF5, 0xFE, 0xFF})
  void bytesThatAreNoTextAreRefused(int wrong) {
    byte[] bytes = {'a', ':', ' ', (byte) wrong, (byte) 0xA0, (byte) 0x80, '\n'};
    assertThatThrownBy(() -> Library.file("bytes.yaml", new ByteArrayInputStream(bytes)))
        .isInstanceOf(FileRefused.class)
        .hasMessageContaining("bytes.yaml:1:4")
        .hasMessageContaining("UTF-8");
  }

  @Test
  void hugeNumbersAreNoNumbersOfATest() {
    String digits = "9".repeat(300_000);
    for (String value : List.of(digits + " bpm", "0." + digits + "e" + digits, "1e999 bpm")) {
      List<Diagnostic> problems =
          Meadow.problems(
              Meadow.edit(Meadow.WALK, "value: 5 bpm", "value: " + value),
              Meadow.WATCH,
              Meadow.EQUATIONS);
      assertThat(problems).isNotEmpty();
    }
    assertThat(Meadow.wrong("hill_1, lasts: 3 min", "hill_1, lasts: 999999999999999 h"))
        .isNotEmpty();
    assertThat(Meadow.wrong("version: 1.0.0", "version: 1.0." + digits)).isNotEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"\u202E", "\u2066", "\u200B", "\u0430", "\uFF41"})
  void lookAlikesAndHiddenCharactersAreNoPartOfNames(String sign) {
    for (String[] edit :
        new String[][] {
          {"id: meadow-walk", "id: meadow-w" + sign + "lk"},
          {"id: hill_3", "id: hill_" + sign},
          {"  steady: abs", "  steady" + sign + ": abs"},
          {"rule: finish when not steady", "rule: finish when not ste" + sign + "dy"},
        }) {
      List<Diagnostic> problems =
          Meadow.problems(
              Meadow.edit(Meadow.WALK, edit[0], edit[1]), Meadow.WATCH, Meadow.EQUATIONS);
      assertThat(problems).as(edit[1]).isNotEmpty();
      assertThat(problems.toString().chars())
          .noneMatch(c -> Character.getType(c) == Character.FORMAT);
    }
  }

  @Test
  void manyWrongNamesAmongManyAreNotEachCompared() {
    String settings =
        IntStream.range(0, 5000)
            .mapToObj(
                i -> "  name_%05d: { value: 1, range: 0 to 2, source: practice }".formatted(i))
            .collect(Collectors.joining("\n", "settings:\n", "\n"));
    String wrong =
        IntStream.range(0, 1000)
            .mapToObj(i -> "  - { id: r%d, rule: stop when ".formatted(i) + terms(i) + " > 1 }")
            .collect(Collectors.joining("\n", "any_time:\n", "\n"));
    String head = "format: 1\nkind: rules\nid: many\nversion: 1.0.0\ntitle: Many\n";
    String walk = Meadow.edit(Meadow.WALK, "include: [watch]", "include: [watch, many]");
    List<SourceFile> files =
        List.of(
            SourceFile.of("walk.yaml", walk),
            SourceFile.of("watch.yaml", Meadow.WATCH),
            SourceFile.of("equations.yaml", Meadow.EQUATIONS),
            SourceFile.of("many.yaml", head + settings + wrong));
    assertTimeoutPreemptively(
        ALARM,
        () ->
            assertThatThrownBy(() -> Library.of(files))
                .isInstanceOfSatisfying(
                    FileRefused.class,
                    refused -> assertThat(refused.diagnostics()).hasSizeLessThanOrEqualTo(200)));
  }

  private static String terms(int rule) {
    return IntStream.range(0, 40)
        .mapToObj(i -> "nome_%d_%d".formatted(i, rule))
        .collect(Collectors.joining(" + "));
  }

  @Test
  void ofALineWithoutEndOnlyAPartIsShown() {
    String items = "{ id: a b, rule: stop }, ".repeat(20_000);
    String text =
        "format: 1\nkind: rules\nid: long\nversion: 1.0.0\ntitle: Long\nany_time: ["
            + items
            + "]\n";
    assertThat(found(text)).isNotEmpty().hasSizeLessThanOrEqualTo(200);
  }
}
