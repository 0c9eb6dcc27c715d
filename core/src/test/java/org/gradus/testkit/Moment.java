package org.gradus.testkit;

import java.util.List;
import java.util.Optional;
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

  /** The last value that was told of a signal, whenever it was; what was amended as it was told. */
  public Optional<Quantity> last(String signal) {
    for (int i = after.size() - 1; i >= 0; i--) {
      if (after.get(i) instanceof Event.Read read) {
        for (Reading reading : read.readings()) {
          if (reading instanceof Measured measured && measured.subject().equals(signal)) {
            return Optional.of(measured.value());
          }
        }
      }
    }
    return Optional.empty();
  }
}
