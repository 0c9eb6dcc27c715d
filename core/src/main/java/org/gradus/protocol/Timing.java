package org.gradus.protocol;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** When something is due in a stage. */
public sealed interface Timing {

  /**
   * The due times since the start of a stage.
   *
   * @param lasts how long the stage was planned to last
   * @param until up to when times are wanted, included; later than {@code lasts} when the stage is
   *     held
   */
  List<Duration> due(Duration lasts, Duration until);

  /** The last due time not after a moment; empty when nothing is due by then. */
  default Optional<Duration> lastDue(Duration lasts, Duration moment) {
    List<Duration> due = due(lasts, moment);
    return due.isEmpty() ? Optional.empty() : Optional.of(due.get(due.size() - 1));
  }

  /**
   * Again and again.
   *
   * @param every the time between two
   * @param from the first, since the start of the stage
   */
  record Each(Duration every, Duration from) implements Timing {
    @Override
    public List<Duration> due(Duration lasts, Duration until) {
      List<Duration> due = new ArrayList<>();
      for (Duration t = from; t.compareTo(until) <= 0; t = t.plus(every)) {
        due.add(t);
      }
      return due;
    }

    @Override
    public Optional<Duration> lastDue(Duration lasts, Duration moment) {
      if (moment.compareTo(from) < 0) {
        return Optional.empty();
      }
      long times = moment.minus(from).toMillis() / every.toMillis();
      return Optional.of(from.plus(every.multipliedBy(times)));
    }
  }

  /**
   * Once.
   *
   * @param time since the start of the stage
   */
  record At(Duration time) implements Timing {
    @Override
    public List<Duration> due(Duration lasts, Duration until) {
      return once(time, until);
    }
  }

  /**
   * Once, before the planned end.
   *
   * @param lead how long before
   */
  record BeforeEnd(Duration lead) implements Timing {
    @Override
    public List<Duration> due(Duration lasts, Duration until) {
      return once(lasts.minus(lead), until);
    }
  }

  private static List<Duration> once(Duration time, Duration until) {
    return time.isNegative() || time.compareTo(until) > 0 ? List.of() : List.of(time);
  }
}
