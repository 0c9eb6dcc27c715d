package org.gradus.capacity;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import org.gradus.protocol.EstimateLine;
import org.gradus.session.Outcome;
import org.gradus.unit.Quantity;

/**
 * The headline of a test in numbers alone, for batch processing: the first estimate that could be
 * made, if it is plausible. {@link Capacity#headline} says the same with everything it rests on.
 *
 * <pre>{@code
 * Headline.of(session.outcome()).ifPresent(best -> sum.add(best.vo2max()));
 * }</pre>
 *
 * @param vo2max the capacity in mL/kg/min, unrounded
 * @param interval where the true capacity lies in 95 of 100 such tests, where anything is known of
 *     the errors
 */
public record Headline(Quantity vo2max, Optional<Interval> interval) {
  public Headline {
    requireNonNull(interval, "interval");
    requireNonNull(vo2max, "vo2max");
  }

  /**
   * Works it out; empty when no estimate of the protocol could be made, or when the first that
   * could is implausible.
   */
  public static Optional<Headline> of(Outcome outcome) {
    Attempt attempt = new Attempt(outcome);
    for (EstimateLine line : outcome.protocol().assessment().estimates()) {
      Optional<Attempt.Answer> answer =
          line.secondLook() ? Optional.empty() : attempt.at(line).answer();
      if (answer.isPresent()) {
        return answer
            .filter(found -> attempt.outside(line, found).isEmpty())
            .map(found -> new Headline(found.value(), found.around().interval()));
      }
    }
    return Optional.empty();
  }
}
