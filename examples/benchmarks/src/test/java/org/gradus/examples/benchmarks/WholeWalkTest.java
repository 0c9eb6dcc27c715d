package org.gradus.examples.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.gradus.bundled.Bundled;
import org.gradus.protocol.Protocol;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/** What is measured beside each other comes to the same decisions. */
class WholeWalkTest {

  @Test
  void theEngineAndTheWalkWrittenByHandDecideAlike() {
    Protocol walk = Bundled.library().protocol("graded-walk-standard");
    Set<Verdict.Kind> seen = EnumSet.noneOf(Verdict.Kind.class);
    int longest = 0;
    for (WalkSheet sheet : WalkSheet.some(500, 20261202)) {
      List<Verdict.Kind> byHand = WholeWalk.byHand(sheet);
      assertThat(WholeWalk.byGradus(walk, sheet)).isEqualTo(byHand);
      seen.addAll(byHand);
      longest = Math.max(longest, byHand.size());
    }
    assertThat(seen)
        .containsExactlyInAnyOrder(Verdict.Kind.HOLD, Verdict.Kind.ADVANCE, Verdict.Kind.FINISH);
    assertThat(longest).isGreaterThan(5);
  }
}
