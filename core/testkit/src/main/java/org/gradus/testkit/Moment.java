package org.gradus.testkit;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.gradus.diagnostic.GradusException;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Reading;
import org.gradus.session.Reading.Measured;
import org.gradus.unit.Quantity;

/**
 * One step of a script that was just done or refused.
 *
 * @param session the session after it
 * @param step what was done
 * @param phase the phase before it
 * @param before the events before it
 * @param after the events after it
 * @param answer what was answered, or shown before it was acted upon; empty when it was refused
 * @param refusal why it was refused; empty when it was done
 */
public record Moment(
    LiveSession session,
    Step step,
    Phase phase,
    List<Event> before,
    List<Event> after,
    Optional<Decision> answer,
    Optional<GradusException> refusal) {

  public Moment {
    before = List.copyOf(before);
    after = List.copyOf(after);
  }

  /** What the session was told or what was done by this step, if anything. */
  public Optional<Event> told() {
    return after.size() > before.size()
        ? Optional.of(after.get(after.size() - 1))
        : Optional.empty();
  }

  /**
   * The value of a signal that was taken last: as it was put right, if it was; what was taken back
   * does not count. What was read before the test, at rest, is no such value.
   */
  public Optional<Quantity> last(String signal) {
    Map<Integer, Taken> values = new TreeMap<>();
    for (int i = 0; i < after.size(); i++) {
      Event event = after.get(i);
      if (event instanceof Event.Read read) {
        int number = i + 1;
        value(read.readings(), signal)
            .ifPresent(value -> values.put(number, new Taken(read.taken(), value)));
      } else if (event instanceof Event.Amended amended) {
        value(amended.readings(), signal)
            .ifPresent(
                value ->
                    values.computeIfPresent(
                        amended.event(), (number, old) -> new Taken(old.at(), value)));
      } else if (event instanceof Event.Rejected rejected && rejected.subject().equals(signal)) {
        values.remove(rejected.event());
      }
    }
    // Of two that were taken at the same time the one that was told later.
    return values.values().stream()
        .reduce((one, other) -> other.at().compareTo(one.at()) >= 0 ? other : one)
        .map(Taken::value);
  }

  private record Taken(Duration at, Quantity value) {}

  private static Optional<Quantity> value(List<Reading> readings, String signal) {
    return readings.stream()
        .filter(reading -> reading instanceof Measured && reading.subject().equals(signal))
        .map(reading -> ((Measured) reading).value())
        .findFirst();
  }
}
