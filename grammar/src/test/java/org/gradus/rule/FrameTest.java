package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.junit.jupiter.api.Test;

/** A frame that is filled on demand: every slot once, and only where somebody looks. */
class FrameTest {

  private final List<String> filled = new ArrayList<>();
  private final Bench bench =
      new Bench()
          .define("fast", "heart_rate > 100 bpm")
          .read("heart_rate", 90)
          .read("systolic", 200)
          .read("rpe", 15);

  private Frame onDemand() {
    Frame known = bench.frame();
    return Frame.onDemand(
        known.layout(),
        (frame, slot) -> {
          filled.add(subject(known.layout(), slot));
          if (known.isKnown(slot)) {
            frame.set(slot, known.value(slot), known.halfWidth(slot));
          } else {
            frame.miss(slot, known.gap(slot));
          }
        });
  }

  private static String subject(Layout layout, int slot) {
    return layout.demands().get(slot).subject();
  }

  private static int slot(Frame frame, String name) {
    return frame.layout().demands().stream().map(Demand::subject).toList().indexOf(name);
  }

  @Test
  void aSlotIsFilledOnceAndOnlyWhenARuleLooksAtIt() {
    Condition both = bench.condition("fast and systolic > 180 mmHg");
    Condition either = bench.condition("fast or rpe > 10");
    Frame frame = onDemand();
    assertThat(filled).isEmpty();
    assertThat(both.test(frame)).isEqualTo(Truth.FALSE);
    assertThat(filled).containsExactly("heart_rate");
    assertThat(either.test(frame)).isEqualTo(Truth.TRUE);
    assertThat(filled).containsExactly("heart_rate", "rpe");
  }

  @Test
  void aGapIsFilledOnceToo() {
    Condition asked = bench.condition("gait is walking");
    Frame frame = onDemand();
    assertThat(asked.test(frame)).isEqualTo(Truth.UNKNOWN);
    assertThat(asked.gaps(frame)).extracting(Gap::subject).containsExactly("gait");
    assertThat(filled).containsExactly("gait");
  }

  @Test
  void whatIsPutIntoASlotLaterChangesWhatWasEvaluatedBefore() {
    Condition fast = bench.condition("fast and rpe > 10");
    Frame frame = onDemand();
    assertThat(fast.test(frame)).isEqualTo(Truth.FALSE);
    frame.set(slot(frame, "heart_rate"), 120, 0);
    assertThat(fast.test(frame)).isEqualTo(Truth.TRUE);
  }

  @Test
  void aCopyKnowsAllThatItsFrameWouldHaveKnown() {
    Condition both = bench.condition("heart_rate < 100 bpm and systolic > 180 mmHg");
    Frame frame = onDemand();
    Frame copy = frame.copy();
    assertThat(filled).containsExactlyInAnyOrder("heart_rate", "systolic");
    copy.miss(slot(copy, "systolic"), Gap.never("systolic", Gap.Cause.STALE));
    assertThat(both.test(copy)).isEqualTo(Truth.UNKNOWN);
    assertThat(both.test(frame)).isEqualTo(Truth.TRUE);
    assertThat(filled).hasSize(2);
  }
}
