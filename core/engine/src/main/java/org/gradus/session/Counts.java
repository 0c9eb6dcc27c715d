package org.gradus.session;

import java.util.List;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Condition;
import org.gradus.rule.Resolution;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;

/**
 * Counts the stages at whose end a definition held, the present one included. A stage that is over
 * and of which it is not known does not count; while it is not known of the present one, the count
 * is not known either. Warm-ups never count.
 */
final class Counts {

  private final TestState state;
  private final List<Demand> demands;
  private final int[] held;
  private final int[] marginal;

  private Counts(TestState state) {
    this.state = state;
    this.demands = state.protocol.wiring().layout().demands();
    this.held = new int[demands.size()];
    this.marginal = new int[demands.size()];
  }

  /** Says of each count of a frame that it is not known. */
  static void none(Protocol protocol, Frame frame) {
    List<Demand> demands = protocol.wiring().layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      if (demands.get(slot).aspect() == Aspect.COUNT) {
        frame.miss(slot, Gap.never(demands.get(slot).subject(), Cause.NOT_IN_STAGE));
      }
    }
  }

  /** Fills the counts of a frame that shows a stage. */
  static void fill(TestState state, StageRun present, Frame frame) {
    Counts counts = new Counts(state);
    counts.before(present);
    counts.add(present, frame);
  }

  /**
   * Fills the counts of a frame that shows recovery: of all stages that were gone through to their
   * ends.
   */
  static void fillAfterwards(TestState state, Frame frame) {
    Counts counts = new Counts(state);
    counts.over(state.runs);
    for (int slot = 0; slot < counts.demands.size(); slot++) {
      if (counts.demands.get(slot).aspect() == Aspect.COUNT) {
        frame.set(slot, counts.held[slot], counts.marginal[slot]);
      }
    }
  }

  private void before(StageRun present) {
    over(state.runs.stream().takeWhile(stage -> !stage.equals(present)).toList());
  }

  private void over(List<StageRun> before) {
    for (StageRun stage : before) {
      if (stage.completed()) {
        add(stage, FrameFiller.withoutCounts(state, stage));
      }
    }
  }

  private void add(StageRun stage, Frame frame) {
    // A definition that is counted may rest on another count: as many rounds as there are counts.
    for (int round = 0; round < state.protocol.wiring().counted().size(); round++) {
      for (int slot = 0; slot < demands.size(); slot++) {
        if (demands.get(slot).aspect() == Aspect.COUNT) {
          show(stage, frame, slot);
        }
      }
    }
    for (int slot = 0; slot < demands.size(); slot++) {
      if (demands.get(slot).aspect() == Aspect.COUNT && stage.stage().isCounted()) {
        Condition condition = state.protocol.wiring().counted(demands.get(slot));
        held[slot] += condition.test(frame) == Truth.TRUE ? 1 : 0;
        marginal[slot] += isMarginal(condition, frame) ? 1 : 0;
      }
    }
  }

  private void show(StageRun stage, Frame frame, int slot) {
    Condition condition = state.protocol.wiring().counted(demands.get(slot));
    Truth now = stage.stage().isCounted() ? condition.test(frame) : Truth.FALSE;
    if (now == Truth.UNKNOWN) {
      frame.miss(slot, condition.gaps(frame).get(0));
    } else {
      int open = marginal[slot] + (isMarginal(condition, frame) ? 1 : 0);
      frame.set(slot, held[slot] + (now == Truth.TRUE ? 1 : 0), open);
    }
  }

  private boolean isMarginal(Condition condition, Frame frame) {
    Outcomes outcomes = condition.outcomes(Resolution.around(frame));
    return outcomes.canHold() && outcomes.canFail();
  }
}
