package org.gradus.trial;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Interval;
import org.gradus.unit.Quantity;

/**
 * How one virtual person fared.
 *
 * @param female whether it was a woman
 * @param age in completed years
 * @param capacity the true maximal uptake
 * @param end how the exercise ended
 * @param rule the rule or reason behind the end
 * @param exercise how long it lasted
 * @param decisions decisions that were followed
 * @param marginal how many of them the readings' own steps could have flipped
 * @param holds how often a stage was prolonged
 * @param estimate the first estimate that could be made
 * @param interval where the capacity is said to lie in 95 of 100 such tests, if anything is said
 * @param results what else came out, by the ids of results
 * @param recovery the word of the verdict that ended recovery; empty where there was none
 */
public record Run(
    boolean female,
    int age,
    Quantity capacity,
    End end,
    String rule,
    Duration exercise,
    int decisions,
    int marginal,
    int holds,
    Optional<Quantity> estimate,
    Optional<Interval> interval,
    Map<String, Quantity> results,
    Optional<String> recovery) {

  public Run {
    requireNonNull(capacity, "capacity");
    requireNonNull(end, "end");
    requireNonNull(estimate, "estimate");
    requireNonNull(exercise, "exercise");
    requireNonNull(interval, "interval");
    requireNonNull(recovery, "recovery");
    requireNonNull(results, "results");
    requireNonNull(rule, "rule");
    results = Collections.unmodifiableMap(new LinkedHashMap<>(results));
  }

  /** How the exercise of a virtual person ends. */
  public enum End {
    /** It was not begun. */
    DEFERRED,
    /** It served its purpose. */
    FINISHED,
    /** A stop ended it. */
    STOPPED,
    /** It ended because no decision could be made. */
    UNDECIDED
  }
}
