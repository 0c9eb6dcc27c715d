package org.gradus.diagnostic;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.diagnostic.Diagnostic.Label;
import org.junit.jupiter.api.Test;

/** What a person sees. */
class RendererTest {

  private static Label label(SourceFile file, String stretch, String note) {
    int start = file.text().indexOf(stretch);
    return new Label(new Span(file, start, start + stretch.length()), note);
  }

  private static Diagnostic mismatch(Label... labels) {
    return new Diagnostic(Code.G204, List.of(labels), List.of("a heart rate", "a pressure", "bpm"));
  }

  @Test
  void severalPlacesOnOneLineHaveTheirNotesBelow() {
    SourceFile file = SourceFile.of("walk.yaml", "heart_rate between 90 bpm and 135 mmHg\n");
    assertThat(
            mismatch(
                label(file, "135 mmHg", "pressure"),
                label(file, "heart_rate", "heart rate"),
                label(file, "90 bpm", "also a heart rate")))
        .hasToString(
            """
            error[G204] walk.yaml:1:31: a heart rate cannot be compared with a pressure
              1 | heart_rate between 90 bpm and 135 mmHg
                | ----------         ------     ^^^^^^^^ pressure
                |                    also a heart rate
                | heart rate
              help: give both sides in units of one kind, such as bpm""");
  }

  @Test
  void placesOnSeveralLinesAreShownInOrderWithEvenMargins() {
    SourceFile file = SourceFile.of("walk.yaml", "\n".repeat(8) + "heart_rate\n  > 135 mmHg\n");
    assertThat(
            mismatch(label(file, "135 mmHg", "pressure"), label(file, "heart_rate", "heart rate")))
        .hasToString(
            """
            error[G204] walk.yaml:10:5: a heart rate cannot be compared with a pressure
               9 | heart_rate
                 | ---------- heart rate
              10 |   > 135 mmHg
                 |     ^^^^^^^^ pressure
              help: give both sides in units of one kind, such as bpm""");
  }

  @Test
  void aPlaceThatGoesOverSeveralLinesIsUnderlinedOnItsFirst() {
    SourceFile file = SourceFile.of("walk.yaml", "finish when a\n  and b\n");
    assertThat(Diagnostic.at(new Span(file, 7, 21), Code.G401))
        .hasToString(
            """
            error[G401] walk.yaml:1:8: this list can end without a verdict
              1 | finish when a
                |        ^^^^^^
              help: close it with a rule without a condition, such as: advance""");
  }

  @Test
  void aPlaceInAnotherFileIsShownUnderThatFilesName() {
    SourceFile file = SourceFile.of("walk.yaml", "include: [common]\n");
    SourceFile other = SourceFile.of("common.yaml", "\n\nsteady: rpe < 3\n");
    assertThat(
            new Diagnostic(
                Code.G312,
                List.of(label(file, "common", ""), label(other, "steady", "here")),
                List.of("steady", "common", "this file")))
        .hasToString(
            """
            error[G312] walk.yaml:1:11: steady is defined by common and by this file
              1 | include: [common]
                |           ^^^^^^
              in common.yaml:
              3 | steady: rpe < 3
                | ------ here
              help: define it in this file, or include only one of them""");
  }

  @Test
  void aPlaceInsideAnotherKeepsItsCarets() {
    SourceFile file = SourceFile.of("t", "a + b > c");
    assertThat(
            mismatch(label(file, "b", "inner"), label(file, "a + b", "outer")).toString().lines())
        .containsSequence("  1 | a + b > c", "    | ----^ inner", "    | outer");
    assertThat(
            mismatch(label(file, "a + b", "outer"), label(file, "b", "inner")).toString().lines())
        .containsSequence("  1 | a + b > c", "    | ^^^^^ outer", "    |     inner");
  }

  @Test
  void windowsLineEndsAreNotShown() {
    SourceFile file = SourceFile.of("t", "one\r\ntwo three\r\nfour");
    Diagnostic atThree = Diagnostic.at(label(file, "three", "").where(), Code.G402, "x");
    assertThat(atThree.toString())
        .doesNotContain("\r", "\uFFFD")
        .startsWith("error[G402] t:2:5:")
        .contains("  2 | two three\n    |     ^^^^^\n");
    Span afterTwo = new Span(file, file.text().indexOf("\r\nfour"), file.text().indexOf("four"));
    assertThat(Diagnostic.at(afterTwo, Code.G402, "x").toString())
        .contains("  2 | two three\n    |          ^\n");
  }

  @Test
  void aLoneCarriageReturnEndsALineToo() {
    SourceFile file = SourceFile.of("t", "one\rtwo\r");
    assertThat(label(file, "two", "").where()).hasToString("t:2:1");
  }

  @Test
  void aPlaceAtTheEndOfAFileIsOneCaretWide() {
    SourceFile file = SourceFile.of("t", "finish when\n");
    assertThat(Diagnostic.at(new Span(file, 12, 12), Code.G401).toString())
        .contains("t:2:1")
        .contains("  2 |\n    | ^\n");
    SourceFile empty = SourceFile.of("t", "");
    assertThat(Diagnostic.at(new Span(empty, 0, 0), Code.G401).toString())
        .contains("  1 |\n    | ^\n");
  }

  @Test
  void caretsStandUnderWhatTheyMeanBehindTabsAndWideAndCombiningCharacters() {
    for (String before : List.of("\t", "心拍", "😀", "e\u0301", "한", "ａ")) {
      SourceFile file = SourceFile.of("t", before + "x");
      String[] lines =
          Diagnostic.at(label(file, "x", "").where(), Code.G401).toString().split("\n", -1);
      int columns = lines[2].indexOf('^') - lines[2].indexOf('|') - 2;
      int expected =
          switch (before) {
            case "\t", "心拍" -> 4;
            case "e\u0301" -> 1;
            default -> 2;
          };
      assertThat(columns).as(before).isEqualTo(expected);
    }
  }

  @Test
  void aColumnCountsCharactersAsAPersonDoes() {
    SourceFile file = SourceFile.of("t", "😀😀x");
    assertThat(label(file, "x", "").where().column()).isEqualTo(3);
  }

  @Test
  void nothingInAFileCanMoveTheCursorOrTurnTheLine() {
    String hostile = "a\u001B[2J\u202Eb\u2028c\u0007d\uD800e";
    SourceFile file = SourceFile.of("t\u001B", hostile);
    String shown =
        new Diagnostic(
                Code.G201, List.of(new Label(new Span(file, 0, 3), "")), List.of(hostile, hostile))
            .toString();
    assertThat(shown).doesNotContain("\u001B", "\u202E", "\u2028", "\u0007", "\uD800");
    assertThat(shown.lines()).hasSize(4);
  }

  @Test
  void ofALongLineOnlyTheSurroundingsAreShown() {
    String text = "a ".repeat(500) + "here " + "b ".repeat(500);
    int at = text.indexOf("here");
    SourceFile file = SourceFile.of("test", text);
    String shown = Diagnostic.at(new Span(file, at, at + 4), Code.G103).toString();
    List<String> lines = shown.lines().toList();
    assertThat(lines.get(1)).startsWith("  1 | ...").endsWith("...").hasSizeLessThan(260);
    assertThat(lines.get(1).indexOf("here")).isEqualTo(lines.get(2).indexOf("^^^^"));
    String wide = Diagnostic.at(new Span(file, 0, text.length()), Code.G103).toString();
    assertThat(wide.lines().mapToInt(String::length).max().orElse(0)).isLessThan(260);
    String both =
        new Diagnostic(
                Code.G103,
                List.of(
                    new Diagnostic.Label(new Span(file, text.length() - 2, text.length()), "far"),
                    new Diagnostic.Label(new Span(file, 0, 1), "near")),
                List.of())
            .toString();
    assertThat(both).contains("near", "far");
  }
}
