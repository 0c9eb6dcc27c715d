package org.gradus.examples.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;

import java.time.Duration;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** Only what answers alike can be compared. */
class SubjectsTest {

  @Test
  void everySubjectGivesTheSameAnswersAtEveryMoment() {
    assertThatCode(() -> Subject.refuseDifferent(RulesBenchmark.MOMENTS))
        .doesNotThrowAnyException();
  }

  @Test
  void everyRuleHoldsAtSomeMomentAndFailsAtAnother() {
    Evaluator rules = Subject.GRADUS.over(RulesBenchmark.MOMENTS);
    long held = 0;
    long failed = 0;
    for (int i = 0; i < RulesBenchmark.MOMENTS; i++) {
      long answers = rules.pass(i);
      held |= answers;
      failed |= ~answers;
    }
    int count = Translation.ids().size();
    for (int rule = 0; rule < count; rule++) {
      // The last rule has no condition: it always holds.
      assertThat(held >> (2 * rule) & 1).isEqualTo(1);
      assertThat(failed >> (2 * rule) & 1).isEqualTo(rule == 0 ? 0 : 1);
    }
  }

  @Test
  void theLongTestGoesOnToItsThirtiethMinute() {
    assertThat(LongTest.until(30).decide(Duration.ofMinutes(30)).verdict())
        .isInstanceOf(Verdict.Advance.class);
  }
}
