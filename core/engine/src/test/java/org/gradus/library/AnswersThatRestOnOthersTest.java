package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.library.Meadow.wrong;

import java.util.List;
import org.junit.jupiter.api.Test;

/** Defaults and options of questions may rest on other answers, but not without end. */
class AnswersThatRestOnOthersTest {

  private static List<String> faults(int questions, String question) {
    StringBuilder inputs = new StringBuilder("inputs:\n");
    for (int i = 0; i < questions; i++) {
      inputs.append(
          "  q%d: { kind: speed, ask: Speed, %s }\n"
              .formatted(i, question.replace("ONE", "q" + (i + 1)).replace("TWO", "q" + (i + 2))));
    }
    for (int i = questions; i < questions + 2; i++) {
      inputs.append("  q%d: { kind: speed, ask: Speed, range: 1 km/h to 9 km/h }\n".formatted(i));
    }
    return wrong("stage_end:\n", inputs + "stage_end:\n");
  }

  @Test
  void defaultsThatDoubleWithEveryQuestionAreRefused() {
    String both = "range: 1 km/h to 9 km/h, default: \"0.5 * (ONE + TWO)\"";
    assertThat(faults(40, both)).containsExactly("G105 \"q0\"");
    assertThat(faults(10, both)).isEmpty();
  }

  @Test
  void soAreOptions() {
    String both =
        "options: [{ value: 2 km/h, when: ONE > 3 km/h or TWO > 3 km/h }, { value: 4 km/h }]";
    assertThat(faults(40, both)).containsExactly("G105 \"q0\"");
    assertThat(faults(10, both)).isEmpty();
  }

  @Test
  void aLongChainIsRefused() {
    assertThat(faults(200, "range: 1 km/h to 9 km/h, default: ONE")).containsExactly("G105 \"q0\"");
    assertThat(faults(60, "range: 1 km/h to 9 km/h, default: ONE")).isEmpty();
  }
}
