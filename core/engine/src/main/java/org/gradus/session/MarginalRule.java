package org.gradus.session;

import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/**
 * A rule that can end something and only just held or did not hold.
 *
 * @param comparisons what could have come out the other way
 * @param until when it would count without a second reading, if it had held
 * @param kept whether it could be a stop by now, which no later reading takes back
 */
record MarginalRule(List<String> comparisons, Duration until, boolean kept) {

  MarginalRule {
    comparisons = List.copyOf(comparisons);
  }

  /** Nothing yet that could have come out the other way. */
  static MarginalRule none(Duration until) {
    return new MarginalRule(List.of(), until, false);
  }

  MarginalRule with(List<String> further, boolean keep) {
    if (comparisons.containsAll(further)) {
      return kept || !keep ? this : new MarginalRule(comparisons, until, true);
    }
    Set<String> all = new LinkedHashSet<>(comparisons);
    all.addAll(further);
    return new MarginalRule(List.copyOf(all), until, kept || keep);
  }
}
