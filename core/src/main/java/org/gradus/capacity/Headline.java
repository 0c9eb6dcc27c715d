package org.gradus.capacity;

import java.util.Optional;
import org.gradus.session.Outcome;
import org.gradus.unit.Quantity;

/**
 * The first estimate of a test that could be made, in numbers alone; for who works through many
 * tests and reads none of them. {@link Capacity#headline} says the same with everything it rests
 * on.
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

  /** Works it out; empty when no estimate of the protocol could be made. */
  public static Optional<Headline> of(Outcome outcome) {
    Attempt attempt = new Attempt(outcome);
    return outcome.protocol().assessment().estimates().stream()
        .map(attempt::at)
        .flatMap(tried -> tried.answer().stream())
        .map(answer -> new Headline(answer.vo2max(), answer.interval()))
        .findFirst();
  }
}
