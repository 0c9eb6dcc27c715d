package org.gradus.session;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.util.List;
import java.util.function.Supplier;
import org.gradus.internal.KeyMoments;
import org.gradus.rule.plan.Frame;
import org.junit.jupiter.api.Test;

/** An outcome stays what it is, whoever works out something from it. */
class OutcomeTest {

  @Test
  void whatIsChangedInAFrameOfAnOutcomeChangesNothing() {
    Session walk = Slope.walk("{ id: fast, rule: stop when heart_rate > 150 bpm }");
    walk.record(at("1:00"), heartRate(120));
    walk.record(at("2:00"), heartRate(130));
    walk.follow(walk.decide(at("2:20")));
    Outcome outcome = walk.outcome();
    KeyMoments moments = KeyMoments.of(outcome);
    List<Supplier<Frame>> frames =
        List.of(() -> moments.atEndOf(0), moments::atFinish, moments::inRecovery);
    for (Supplier<Frame> asked : frames) {
      Frame first = asked.get();
      int slot =
          first.layout().demands().stream().map(d -> d.subject()).toList().indexOf("heart_rate");
      double known = first.value(slot);
      assertThat(known).isFinite();
      first.set(slot, 7, 0);
      assertThat(asked.get().value(slot)).isEqualTo(known);
      assertThat(KeyMoments.of(walk.outcome()).atFinish().value(slot)).isFinite().isNotEqualTo(7);
    }
  }
}
