package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Collectors;
import org.gradus.diagnostic.Diagnostic;
import org.junit.jupiter.api.Test;

/** What a person sees. */
class WholeMessageTest {

  @Test
  void fourErrorsOfOneFileAreShownInOneRunWithPlaceCaretAndHelp() {
    String walk = Meadow.edit(Meadow.WALK, "heart_rate >= end_at", "heart_rate >= 130 mmHg");
    walk =
        Meadow.edit(
            walk,
            "when not steady, source: book }\n  - { id: never",
            "when not stedy, source: book }\n  - { id: never");
    walk =
        Meadow.edit(
            walk,
            "{ id: next, rule: advance, source: book }",
            "{ id: next, rule: advance when steady, source: book }");
    walk =
        Meadow.edit(
            walk,
            "- { id: hill_3, lasts: 3 min, speed: 6 km/h, grade: 12 % }",
            """
            - id: hill_3
                lasts: 3 min
                speed: 6 km/h
                grade: 12 %
                stage_end:
                  - advance to hill_2 when steady
                  - finish""");
    String shown =
        Meadow.problems(walk, Meadow.WATCH, Meadow.EQUATIONS).stream()
            .map(Diagnostic::toString)
            .collect(Collectors.joining("\n"));
    assertThat(shown)
        .isEqualTo(
            """
            error[G404] walk.yaml:37:20: advance to hill_2 would go back
              37 |       - advance to hill_2 when steady
                 |                    ^^^^^^
              help: advance only to a stage that comes later in the file
            error[G204] walk.yaml:41:62: a heart rate cannot be compared with a pressure
              41 |   - { id: enough, rule: finish when steady and heart_rate >= 130 mmHg, source: book }
                 |                                                ----------    ^^^^^^^^ pressure
                 |                                                heart rate
              help: give both sides in units of one kind, such as bpm
            error[G201] walk.yaml:42:59: stedy is not known here
              42 |   - { id: wait, rule: hold 1 min at most 2 times when not stedy, source: book }
                 |                                                           ^^^^^
              help: did you mean steady?
            error[G401] walk.yaml:44:23: this list can end without a verdict
              44 |   - { id: next, rule: advance when steady, source: book }
                 |                       ^^^^^^^^^^^^^^^^^^^
              help: close it with a rule without a condition, such as: advance""");
  }
}
