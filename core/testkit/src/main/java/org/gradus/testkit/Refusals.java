package org.gradus.testkit;

import java.util.Optional;
import org.gradus.session.Decision;

/** A refusal leaves no trace. */
final class Refusals implements Watch {

  private final TestScript test;
  private Optional<Decision> decision = Optional.empty();

  Refusals(TestScript test) {
    this.test = test;
  }

  @Override
  public void before(LiveSession session, Step step) {
    decision =
        test.luck(step.at()).chance(0.4)
            ? Optional.of(session.decide(session.now()))
            : Optional.empty();
  }

  @Override
  public void after(Moment moment) {
    if (moment.refusal().isPresent()) {
      Watch.same("the events", moment.before(), moment.after());
      LiveSession session = moment.session();
      decision.ifPresent(before -> Watch.same("the decision", before, session.decide(before.at())));
    }
  }
}
