package org.gradus.library;

import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Influences;
import org.gradus.rule.Rule;
import org.gradus.rule.check.Demand;

/** Finds what can change the answers of rules while a stage lasts. */
final class RuleInfluences {

  private final Map<String, Fact> facts;

  /**
   * @param facts what the names in rules stand for
   */
  RuleInfluences(Map<String, Fact> facts) {
    this.facts = facts;
  }

  Influences of(Rule rule) {
    Set<Demand> demands = rule.condition().map(when -> when.demands()).orElse(Set.of());
    Set<String> told = new HashSet<>();
    demands.forEach(demand -> told(demand).ifPresent(told::add));
    return new Influences(demands.stream().anyMatch(this::moves), told);
  }

  private boolean moves(Demand demand) {
    return switch (demand.aspect()) {
      case EVER, COMPLETED -> false;
      case VALUE -> fact(demand).filter(RuleInfluences::moves).isPresent();
      case EARLIER, AVERAGE, HIGHEST, LOWEST, COUNT, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> true;
    };
  }

  // A reading with a name of its own may be one that was taken for another due time first.
  private static boolean moves(Fact fact) {
    return fact instanceof Fact.Clock || fact instanceof Fact.Load || fact instanceof Fact.Named;
  }

  private Optional<String> told(Demand demand) {
    return switch (demand.aspect()) {
      case VALUE -> fact(demand).flatMap(RuleInfluences::told);
      case EVER, EARLIER, AVERAGE, HIGHEST, LOWEST -> Optional.of(demand.subject());
      case COMPLETED, COUNT, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE -> Optional.empty();
    };
  }

  private static Optional<String> told(Fact fact) {
    if (fact instanceof Fact.Read read) {
      return Optional.of(read.signal());
    } else if (fact instanceof Fact.Reported reported) {
      return Optional.of(reported.name());
    } else if (fact instanceof Fact.Previous previous) {
      return Optional.of(previous.name());
    }
    return fact instanceof Fact.AtFinish finish ? Optional.of(finish.signal()) : Optional.empty();
  }

  private Optional<Fact> fact(Demand demand) {
    return Optional.ofNullable(facts.get(demand.subject()));
  }
}
