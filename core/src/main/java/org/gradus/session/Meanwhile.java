package org.gradus.session;

import java.time.Duration;
import java.util.Optional;
import org.gradus.protocol.Fact;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.plan.Frame;

/**
 * What time alone may have brought about between the last event and a moment. Whoever asks late
 * gets the answer of somebody who asked at every second; but to look at every second takes long,
 * and most rules cannot hold at any of them.
 */
final class Meanwhile {

  private final Course course;
  // What was known right after the last event.
  private final Frame frame;
  private final Duration time;
  private final Box around;
  private final Box box;

  Meanwhile(Moment moment) {
    this.course = moment.course();
    this.frame = course.shown().orElseGet(() -> Sight.latest(course, course.now));
    this.time = moment.time();
    this.around = Resolution.around(frame, course.settled);
    this.box = Box.onDemand(frame.layout(), this::cell, course.settled);
  }

  /**
   * Whether a rule could hold at a moment, or could have held before it. One of which it hangs on
   * the step of a reading whether it fails or is unknown must be looked at as well: a decision
   * beside it is not firm.
   */
  boolean couldMatter(ProtocolRule rule) {
    Optional<Condition> condition = rule.rule().condition();
    if (condition.isEmpty()) {
      return true;
    }
    Outcomes could = condition.get().outcomes(box);
    return could.canHold() || (could.canFail() && could.canBeUnknown());
  }

  // The values of a slot since the last event. Clocks run, and of what moves otherwise nothing is
  // said.
  private Cell cell(int slot, Demand demand) {
    Optional<Fact> fact = course.protocol.wiring().fact(slot);
    boolean stays =
        demand.aspect() == Aspect.EVER
            || demand.aspect() == Aspect.COMPLETED
            || fact.filter(known -> !changes(known)).isPresent();
    if (stays) {
      return around.cell(slot);
    } else if (fact.isPresent() && fact.get() instanceof Fact.Clock clock && frame.isKnown(slot)) {
      return Cell.between(frame.value(slot), Sight.clock(course, time, clock.which()));
    }
    return Box.anything(demand.type()).with(Presence.MAYBE);
  }

  private boolean changes(Fact fact) {
    if (fact instanceof Fact.Clock clock) {
      return switch (clock.which()) {
        case STAGE, STAGE_NUMBER -> false;
        case STAGE_TIME, TEST_TIME, EXERCISE_TIME, RECOVERY_TIME -> true;
      };
    } else if (fact instanceof Fact.Load) {
      return course.phase == Phase.RECOVERY
          || course.passage().filter(Passage::changes).isPresent();
    }
    return fact instanceof Fact.Named;
  }
}
