package org.gradus.capacity;

import java.util.List;
import java.util.Optional;
import org.gradus.session.Outcome;

/**
 * The aerobic capacity of a person by all estimates of a protocol. The first that could be made is
 * the headline.
 *
 * <pre>{@code
 * Capacity capacity = Capacity.of(session.outcome());
 * capacity.headline().ifPresent(estimate -> show(estimate.vo2max()));
 * }</pre>
 *
 * <p>An estimate is no measurement: it can be off by a fifth and more in a single person.
 *
 * @param estimates in the order of the protocol
 * @param afterStop whether the exercise was ended by a stop; estimates then come from the stages
 *     before
 */
public record Capacity(List<Estimate> estimates, boolean afterStop) {

  public Capacity {
    estimates = List.copyOf(estimates);
  }

  /** Works out every estimate of the protocol of a test. */
  public static Capacity of(Outcome outcome) {
    Estimator estimator = new Estimator(outcome);
    return new Capacity(
        outcome.protocol().assessment().estimates().stream().map(estimator::estimate).toList(),
        outcome.stopped());
  }

  /** The first estimate that could be made. */
  public Optional<Estimate.Available> headline() {
    return estimates.stream()
        .filter(Estimate.Available.class::isInstance)
        .map(Estimate.Available.class::cast)
        .findFirst();
  }

  /** The estimate of an id, if the protocol declares it. */
  public Optional<Estimate> estimate(String id) {
    return estimates.stream().filter(estimate -> estimate.id().equals(id)).findFirst();
  }
}
