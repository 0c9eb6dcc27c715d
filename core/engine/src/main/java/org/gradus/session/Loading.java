package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.unit.Quantity;
import org.gradus.words.Joined;
import org.gradus.words.Message;

/**
 * One component of the load that is set.
 *
 * @param name {@code speed}, {@code grade}, {@code power} and so on
 * @param value how much; of a load that changes, with what it begins
 * @param ramp how it changes while the stage lasts, if it does
 */
public record Loading(String name, Quantity value, Optional<Ramp> ramp) {
  public Loading {
    requireNonNull(name, "name");
    requireNonNull(ramp, "ramp");
    requireNonNull(value, "value");
  }

  /**
   * How a load changes.
   *
   * @param step by how much; never away from {@code to}
   * @param every how long each step lasts
   * @param to up or down to where
   */
  public record Ramp(Quantity step, Duration every, Quantity to) {
    public Ramp {
      requireNonNull(every, "every");
      requireNonNull(step, "step");
      requireNonNull(to, "to");
    }

    private boolean isSameAs(Ramp other) {
      return step.isSameAs(other.step) && every.equals(other.every) && to.isSameAs(other.to);
    }
  }

  /** A component that stays as it is. */
  public Loading(String name, Quantity value) {
    this(name, value, Optional.empty());
  }

  /** What it is from a moment on, given since the start of the stage. */
  Loading from(Duration moment) {
    return after(moment.toMillis(), 0);
  }

  /** What it was up to a moment: at the second of a step still what it was before. */
  Loading until(Duration moment) {
    return after(moment.toMillis(), 1);
  }

  private Loading after(long millis, long before) {
    if (ramp.isEmpty()) {
      return this;
    }
    long steps = Math.max(0, Math.floorDiv(millis - before, ramp.get().every().toMillis()));
    double moved = value.base() + steps * ramp.get().step().base();
    double to = ramp.get().to().base();
    // The last step may be a shorter one.
    double there = to >= value.base() ? Math.min(moved, to) : Math.max(moved, to);
    return new Loading(name, Quantity.ofBase(there, value.unit()));
  }

  /** When it changes next after a moment, both since the start of the stage; empty if never. */
  Optional<Duration> nextChange(Duration moment) {
    if (ramp.isEmpty()
        || ramp.get().step().base() == 0
        || from(moment).value().isSameAs(ramp.get().to())) {
      return Optional.empty();
    }
    Duration every = ramp.get().every();
    return Optional.of(every.multipliedBy(moment.toMillis() / every.toMillis() + 1));
  }

  private Object said() {
    return ramp.<Object>map(
            change ->
                Message.of(
                    SessionMessage.LOAD_RAMP,
                    shown(value),
                    shown(change.step()),
                    Times.clock(change.every()),
                    shown(change.to())))
        .orElse(shown(value));
  }

  // As finely as any ergometer can be set.
  private static Quantity shown(Quantity quantity) {
    return quantity.rounded(2);
  }

  /** Whether two loads set the same, up to the rounding of what is worked out. */
  static boolean areSame(List<Loading> some, List<Loading> others) {
    if (some.size() != others.size()) {
      return false;
    }
    for (int i = 0; i < some.size(); i++) {
      if (!some.get(i).isSameAs(others.get(i))) {
        return false;
      }
    }
    return true;
  }

  private boolean isSameAs(Loading other) {
    return name.equals(other.name)
        && value.isSameAs(other.value)
        && ramp.isPresent() == other.ramp.isPresent()
        && ramp.stream().allMatch(change -> change.isSameAs(other.ramp.orElseThrow()));
  }

  /** Loads in one line: {@code 1.7 mph, 10 %}, {@code 3 mph, 0 % by 1.2 % every 0:20 to 12 %}. */
  public static String line(List<Loading> loads) {
    return message(loads).toString();
  }

  /** Loads in one line, to be said in any language. */
  public static Message message(List<Loading> loads) {
    return loads.isEmpty()
        ? Message.of(SessionMessage.NO_LOAD)
        : Message.of(Joined.ALONE, loads.stream().map(Loading::said).toList());
  }
}
