package org.gradus.rule.bounds;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Outcomes are sets of answers: every operation is that of the answers, each with each. */
class OutcomesTest {

  private static final int NO = -1;
  private static final int OPEN = 0;
  private static final int YES = 1;

  private static List<Outcomes> all() {
    List<Outcomes> all = new ArrayList<>();
    for (int set = 0; set < 8; set++) {
      all.add(new Outcomes((set & 1) != 0, (set & 2) != 0, (set & 4) != 0));
    }
    return all;
  }

  private static List<Integer> answers(Outcomes outcomes) {
    List<Integer> answers = new ArrayList<>();
    if (outcomes.canHold()) {
      answers.add(YES);
    }
    if (outcomes.canFail()) {
      answers.add(NO);
    }
    if (outcomes.canBeUnknown()) {
      answers.add(OPEN);
    }
    return answers;
  }

  private static Outcomes of(List<Integer> answers) {
    return new Outcomes(answers.contains(YES), answers.contains(NO), answers.contains(OPEN));
  }

  // Both sides are sides of one moment, so an empty set, which is no moment, has none of its own.
  @Test
  void conjunctionsAreThoseOfTheAnswers() {
    for (Outcomes left : all()) {
      for (Outcomes right : all()) {
        if (answers(left).isEmpty() || answers(right).isEmpty()) {
          continue;
        }
        List<Integer> both = new ArrayList<>();
        List<Integer> either = new ArrayList<>();
        for (int a : answers(left)) {
          for (int b : answers(right)) {
            both.add(Math.min(a, b));
            either.add(Math.max(a, b));
          }
        }
        assertThat(left.and(right)).as("%s and %s", left, right).isEqualTo(of(both));
        assertThat(left.or(right)).as("%s or %s", left, right).isEqualTo(of(either));
      }
    }
  }

  @Test
  void aDenialTurnsEveryAnswer() {
    for (Outcomes some : all()) {
      assertThat(some.not()).isEqualTo(of(answers(some).stream().map(answer -> -answer).toList()));
    }
  }

  @Test
  void joinedOutcomesAreThoseOfEither() {
    for (Outcomes left : all()) {
      for (Outcomes right : all()) {
        List<Integer> joined = new ArrayList<>(answers(left));
        joined.addAll(answers(right));
        assertThat(left.join(right)).isEqualTo(of(joined));
      }
    }
  }

  @Test
  void alwaysAndNeverAreSaidOfWhatCanHold() {
    assertThat(all()).filteredOn(Outcomes::alwaysHolds).containsExactly(Outcomes.HOLDS);
    assertThat(all()).filteredOn(Outcomes::neverHolds).noneMatch(Outcomes::canHold).hasSize(4);
  }

  @Test
  void aPresenceIsNamedByWhatItAllows() {
    assertThat(Presence.of(true, false)).isEqualTo(Presence.KNOWN);
    assertThat(Presence.of(true, true)).isEqualTo(Presence.MAYBE);
    assertThat(Presence.of(false, true)).isEqualTo(Presence.UNKNOWN);
    for (Presence presence : Presence.values()) {
      assertThat(Presence.of(presence.canBeKnown(), presence.canBeUnknown())).isEqualTo(presence);
    }
  }

  @Test
  void aConditionThatIsThereHasOneOfTwoOptions() {
    assertThat(Cell.condition(true)).isEqualTo(new Cell.Options(2, Presence.KNOWN));
    assertThat(Cell.condition(false)).isEqualTo(new Cell.Options(1, Presence.KNOWN));
  }

  @ParameterizedTest
  @CsvSource({
    "false, false, false, false",
    "true, false, false, true",
    "false, true, false, true",
    "false, false, true, true",
    "true, true, false, false",
    "true, false, true, false",
    "false, true, true, false",
    "true, true, true, false",
  })
  void oneAnswerIsCertain(boolean holds, boolean fails, boolean unknown, boolean certain) {
    assertThat(new Outcomes(holds, fails, unknown).isCertain()).isEqualTo(certain);
  }
}
