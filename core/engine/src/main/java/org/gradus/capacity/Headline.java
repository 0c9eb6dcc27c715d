package org.gradus.capacity;

import java.util.Optional;
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

  /**
   * Works it out; empty when no estimate of the protocol could be made, or when the first that
   * could is implausible.
   */
  public static Optional<Headline> of(Outcome outcome) {
    Attempt attempt = new Attempt(outcome);
    return outcome.protocol().assessment().estimates().stream()
        .map(attempt::at)
        .flatMap(tried -> tried.answer().stream())
        .findFirst()
        .filter(answer -> attempt.outside(answer).isEmpty())
        .map(answer -> new Headline(answer.vo2max(), answer.around().interval()));
  }
}
