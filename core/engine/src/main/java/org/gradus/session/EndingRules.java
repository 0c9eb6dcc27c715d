package org.gradus.session;

import java.util.ArrayList;
import java.util.List;
import org.gradus.protocol.MeasureLine.IfMissing;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;

/**
 * What ends the test at any time, as far as it is known when a stage is due to end.
 *
 * @param waitedFor what must be read before the person goes on or stays
 * @param unchecked the rules that are gone on without
 */
record EndingRules(List<Gap> waitedFor, List<Decision.Unchecked> unchecked) {

  static EndingRules of(TestState state, Frame frame) {
    List<Gap> waitedFor = new ArrayList<>();
    List<Decision.Unchecked> unchecked = new ArrayList<>();
    for (ProtocolRule rule : StopMonitor.ending(state)) {
      if (rule.rule().test(frame) == Truth.UNKNOWN) {
        List<Gap> lacking = Reasons.gaps(rule, frame);
        List<Gap> waits = lacking.stream().filter(gap -> isWaitedFor(gap, state)).toList();
        waitedFor.addAll(waits);
        if (waits.isEmpty()) {
          unchecked.add(new Decision.Unchecked(rule.id(), lacking));
        }
      }
    }
    return new EndingRules(waitedFor, unchecked);
  }

  private static boolean isWaitedFor(Gap gap, TestState state) {
    return !(gap.settle() instanceof Gap.Settle.Never)
        && state
            .protocol
            .schedule(state.currentRun().stage())
            .lineOf(gap.subject())
            .filter(line -> line.ifMissing() == IfMissing.WAIT)
            .isPresent();
  }
}
