package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.gradus.protocol.Stretch.End;

/** When something is due in a stage. */
public sealed interface Timing {

  /**
   * The due times since the start of a stage.
   *
   * @param stage how long it lasts
   * @param until up to when times are wanted, included; later than the stage was to last when it is
   *     held
   */
  List<Duration> due(Stretch stage, Duration until);

  /** The last due time not after a moment; empty when nothing is due by then. */
  default Optional<Duration> lastDue(Stretch stage, Duration moment) {
    requireNonNull(moment, "moment");
    List<Duration> due = due(stage, moment);
    return due.isEmpty() ? Optional.empty() : Optional.of(due.get(due.size() - 1));
  }

  /**
   * Whether two due times up to a moment lie just so far apart.
   *
   * @param until up to when, since the start of the stage
   */
  default boolean repeatsAfter(Duration apart, Duration until) {
    requireNonNull(apart, "apart");
    requireNonNull(until, "until");
    return false;
  }

  /** The first due time after a moment. */
  default Optional<Duration> nextDue(Stretch stage, Duration moment) {
    requireNonNull(moment, "moment");
    return due(stage, stage.lasts()).stream().filter(due -> due.compareTo(moment) > 0).findFirst();
  }

  /**
   * What comes of it, by which of them it is.
   *
   * @param <R> what comes of it
   */
  <R> R match(
      Function<Each, ? extends R> each,
      Function<At, ? extends R> at,
      Function<BeforeEnd, ? extends R> beforeEnd,
      Function<WhenDone, ? extends R> whenDone);

  /**
   * Again and again.
   *
   * @param every the time between two
   * @param from the first, since the start of the stage
   */
  record Each(Duration every, Duration from) implements Timing {
    public Each {
      requireNonNull(every, "every");
      requireNonNull(from, "from");
    }

    @Override
    public <R> R match(
        Function<Each, ? extends R> each,
        Function<At, ? extends R> at,
        Function<BeforeEnd, ? extends R> beforeEnd,
        Function<WhenDone, ? extends R> whenDone) {
      return each.apply(this);
    }

    @Override
    public List<Duration> due(Stretch stage, Duration until) {
      requireNonNull(stage, "stage");
      requireNonNull(until, "until");
      if (from.compareTo(until) > 0) {
        return List.of();
      }
      // In whole numbers: to divide durations takes a hundred times as long.
      int many = Math.toIntExact(until.minus(from).toNanos() / every.toNanos()) + 1;
      return new EvenTimes(from, every, many);
    }

    @Override
    public Optional<Duration> lastDue(Stretch stage, Duration moment) {
      requireNonNull(stage, "stage");
      if (moment.compareTo(from) < 0) {
        return Optional.empty();
      }
      // In whole numbers: to multiply a duration takes a hundred times as long.
      long step = every.toMillis();
      long since = moment.toMillis() - from.toMillis();
      return Optional.of(from.plusMillis(since / step * step));
    }

    @Override
    public boolean repeatsAfter(Duration apart, Duration until) {
      requireNonNull(until, "until");
      return apart.toMillis() % every.toMillis() == 0 && from.plus(apart).compareTo(until) <= 0;
    }

    @Override
    public Optional<Duration> nextDue(Stretch stage, Duration moment) {
      requireNonNull(stage, "stage");
      return Optional.of(lastDue(stage, moment).map(last -> last.plus(every)).orElse(from));
    }
  }

  /**
   * Once.
   *
   * @param time since the start of the stage
   */
  record At(Duration time) implements Timing {
    public At {
      requireNonNull(time, "time");
    }

    @Override
    public <R> R match(
        Function<Each, ? extends R> each,
        Function<At, ? extends R> at,
        Function<BeforeEnd, ? extends R> beforeEnd,
        Function<WhenDone, ? extends R> whenDone) {
      return at.apply(this);
    }

    @Override
    public List<Duration> due(Stretch stage, Duration until) {
      requireNonNull(stage, "stage");
      requireNonNull(until, "until");
      return once(time, until);
    }
  }

  /**
   * Once, before the planned end; never in a stage of which it is not known when it will end.
   *
   * @param lead how long before
   */
  record BeforeEnd(Duration lead) implements Timing {
    public BeforeEnd {
      requireNonNull(lead, "lead");
    }

    @Override
    public <R> R match(
        Function<Each, ? extends R> each,
        Function<At, ? extends R> at,
        Function<BeforeEnd, ? extends R> beforeEnd,
        Function<WhenDone, ? extends R> whenDone) {
      return beforeEnd.apply(this);
    }

    @Override
    public List<Duration> due(Stretch stage, Duration until) {
      requireNonNull(until, "until");
      return stage.end() == End.PLANNED ? once(stage.lasts().minus(lead), until) : List.of();
    }

    @Override
    public Optional<Duration> lastDue(Stretch stage, Duration moment) {
      requireNonNull(moment, "moment");
      Duration due = stage.lasts().minus(lead);
      boolean is = stage.end() == End.PLANNED && isOnce(due, moment);
      return is ? Optional.of(due) : Optional.empty();
    }
  }

  /** Once, when what is to be done is done; never in a stage that lasts a planned time. */
  record WhenDone() implements Timing {
    @Override
    public <R> R match(
        Function<Each, ? extends R> each,
        Function<At, ? extends R> at,
        Function<BeforeEnd, ? extends R> beforeEnd,
        Function<WhenDone, ? extends R> whenDone) {
      return whenDone.apply(this);
    }

    @Override
    public List<Duration> due(Stretch stage, Duration until) {
      requireNonNull(until, "until");
      return stage.end() == End.DONE ? once(stage.lasts(), until) : List.of();
    }
  }

  private static List<Duration> once(Duration time, Duration until) {
    return isOnce(time, until) ? List.of(time) : List.of();
  }

  private static boolean isOnce(Duration time, Duration until) {
    return !time.isNegative() && time.compareTo(until) <= 0;
  }
}
