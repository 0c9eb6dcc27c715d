package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.protocol.ProtocolRule;

/**
 * What time alone changes after an event: a stop that waited in vain for a second reading counts, a
 * rule that asks for a clock begins to hold. Time advances from change to change, so that a late
 * question gets the same answer as asking at every moment.
 */
final class TimeAdvance {

  private TimeAdvance() {}

  /** The state at a later time, before anything is told then. */
  static StateAt at(StateAt moment, Duration time) {
    StateAt reached = moment;
    Optional<Duration> next = next(reached, time);
    while (next.isPresent()) {
      reached = looked(reached.later(next.get()));
      next = next(reached, time);
    }
    return reached.later(time);
  }

  /**
   * The first time after a moment at which something may change by itself among what ends the
   * exercise, or recovery, at any time.
   *
   * @param until up to when it is looked for, included
   */
  static Optional<Duration> next(StateAt now, Duration until) {
    List<ProtocolRule> ending = StopMonitor.ending(now.state());
    if (ending.isEmpty()) {
      return Optional.empty();
    }
    Optional<Duration> wait = Optional.empty();
    for (Duration over : StopMonitor.waits(now.state())) {
      boolean ahead = over.compareTo(now.time()) > 0 && over.compareTo(until) <= 0;
      if (ahead && (wait.isEmpty() || over.compareTo(wait.get()) < 0)) {
        wait = Optional.of(over);
      }
    }
    Optional<Duration> change = NextRuleChange.after(now, ending, wait.orElse(until));
    return change.isPresent() ? change : wait;
  }

  private static StateAt looked(StateAt now) {
    StateAt waited = now.with(StopMonitor.expire(now));
    StateAt looked = waited.with(StopMonitor.look(waited, waited.latest(), Map.of()));
    return looked.with(StageJudge.keepUndecided(looked));
  }
}
