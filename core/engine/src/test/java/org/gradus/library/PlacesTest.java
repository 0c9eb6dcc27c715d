package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.gradus.diagnostic.Diagnostic;
import org.junit.jupiter.api.Test;

/** A problem points at the very characters, however the text is written in YAML. */
class PlacesTest {

  private static final String NEVER = "- { id: never, rule: finish when not steady, source: book }";

  /** Replaces a rule by one with a misspelt name and says where the misspelling is found. */
  private static String place(String rule) {
    return place(rule, Meadow.WALK);
  }

  private static String place(String rule, String walk) {
    return placeIn(Meadow.edit(walk, NEVER, rule));
  }

  private static String placeIn(String walk) {
    List<Diagnostic> problems = Meadow.problems(walk, Meadow.WATCH, Meadow.EQUATIONS);
    assertThat(problems).hasSize(1);
    assertThat(problems.get(0).where().text()).isEqualTo("stedy");
    return problems.get(0).where().line() + ":" + problems.get(0).where().column();
  }

  @Test
  void plainText() {
    assertThat(place("- finish when not stedy")).isEqualTo("37:21");
    assertThat(place("- finish when\n      not stedy")).isEqualTo("38:11");
  }

  @Test
  void quotedText() {
    assertThat(place("- 'finish when not stedy'")).isEqualTo("37:22");
    assertThat(place("- \"finish when not stedy\"")).isEqualTo("37:22");
    assertThat(place("- { \"rule\": \"finish when\n      not stedy\" }")).isEqualTo("38:11");
  }

  @Test
  void blocksOfText() {
    assertThat(place("- |\n    finish when\n    not stedy\n")).isEqualTo("39:9");
    assertThat(place("- >-\n    finish when\n\n    not stedy")).isEqualTo("40:9");
    assertThat(place("- rule: |2- # why\n        finish when not stedy\n    id: x"))
        .isEqualTo("38:25");
  }

  @Test
  void windowsLines() {
    String walk = Meadow.WALK.replace("\n", "\r\n");
    assertThat(place("- finish when\r\n      not stedy", walk)).isEqualTo("38:11");
    assertThat(place("- |\r\n    finish when\r\n    not stedy", walk)).isEqualTo("39:9");
  }

  @Test
  void tabsBetweenWords() {
    assertThat(place("- finish\twhen not\tstedy")).isEqualTo("37:21");
  }

  @Test
  void wideAndRareCharactersCountOnce() {
    String walk = Meadow.edit(Meadow.WALK, "gets steeper", "gets \uD83C\uDFD4 \u6B69 steeper");
    assertThat(place("- { why: \"\uD83C\uDFD4\u6B69\", rule: finish when not stedy }", walk))
        .isEqualTo("37:40");
  }

  @Test
  void aByteOrderMarkIsNotCounted() {
    assertThat(
            placeIn(
                Meadow.edit(
                    Meadow.WALK,
                    "not steady, source: book }\n  - { id: never",
                    "not stedy, source: book }\n  - { id: never")))
        .isEqualTo("36:59");
  }
}
