package org.gradus.exchange.device;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Session;

/**
 * A load as a machine sets it.
 *
 * @param wanted the load that was decided
 * @param set the components the machine can set, rounded to its steps
 * @param unsettable the components it cannot set: nothing is sent for them
 */
public record DeviceSetting(List<Loading> wanted, List<Loading> set, List<Unsettable> unsettable) {

  public DeviceSetting {
    requireNonNull(set, "set");
    requireNonNull(unsettable, "unsettable");
    requireNonNull(wanted, "wanted");
    wanted = List.copyOf(wanted);
    set = List.copyOf(set);
    unsettable = List.copyOf(unsettable);
  }

  /**
   * The requests that set it. The host sends them one after the other and waits for each answer;
   * what was not answered with success was not set, and must not be recorded.
   */
  public List<ControlCommand> commands() {
    return set.stream()
        .map(load -> ControlCommand.set(Target.of(load.name()).orElseThrow(), load.value()))
        .toList();
  }

  /** The components that the machine sets otherwise than was decided. */
  public List<Loading> rounded() {
    return set.stream().filter(load -> !wanted.contains(load)).toList();
  }

  /**
   * Tells the session what was really set, where that differs from what was decided, so that rules
   * and estimates use the load that the person walked or rode. Call it at the time of the decision,
   * after the machine has answered with success.
   *
   * @param at the time of the decision that was followed, in a stage
   * @return the decision after it; empty when the machine could set exactly what was decided
   * @throws org.gradus.diagnostic.ReadingRefused when the rounded load lies outside what the
   *     protocol says is possible, or no stage lasts
   */
  public Optional<Decision> record(Session session, Duration at) {
    requireNonNull(at, "at");
    requireNonNull(session, "session");
    Optional<Decision> last = Optional.empty();
    for (Loading load : rounded()) {
      last = Optional.of(session.loadSet(at, load));
    }
    return last;
  }
}
