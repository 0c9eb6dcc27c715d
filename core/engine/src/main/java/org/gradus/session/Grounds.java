package org.gradus.session;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.gradus.protocol.Fact;
import org.gradus.protocol.Wiring;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;

/**
 * The readings because of which a condition holds. They are found by trying: a condition that still
 * holds when all other readings are unknown holds because of those that are left.
 */
final class Grounds {

  // Rules ask for one to three signals. Where a rule asks for more than this, all are grounds.
  private static final int MOST_SIGNALS = 8;

  private final Condition condition;
  private final Frame frame;
  private final Wiring wiring;
  private final List<String> signals;

  /**
   * @param frame in which the condition holds
   */
  Grounds(Condition condition, Frame frame, Wiring wiring) {
    this.condition = condition;
    this.frame = frame;
    this.wiring = wiring;
    this.signals = signals(condition, wiring);
  }

  /** The signals a condition asks for, in order of the alphabet. */
  static List<String> signals(Condition condition, Wiring wiring) {
    return condition.demands().stream()
        .filter(demand -> isReading(demand, wiring))
        .map(Demand::subject)
        .distinct()
        .sorted()
        .toList();
  }

  static boolean isReading(Demand demand, Wiring wiring) {
    return switch (demand.aspect()) {
      case VALUE, EARLIER, AVERAGE, HIGHEST, LOWEST -> wiring.fact(demand) instanceof Fact.Read;
      case EVER, COUNT, COMPLETED, LINE_MEAN_X, LINE_MEAN_Y, LINE_SLOPE, INTERPOLATED -> false;
    };
  }

  /** Whether the condition holds by the readings of these signals alone. */
  boolean holdsBy(Set<String> some) {
    Frame masked = frame.copy();
    List<Demand> demands = masked.layout().demands();
    for (int slot = 0; slot < demands.size(); slot++) {
      Demand demand = demands.get(slot);
      boolean hidden = signals.contains(demand.subject()) && !some.contains(demand.subject());
      if (hidden && isReading(demand, wiring)) {
        masked.miss(slot, Retake.unconfirmed(demand.subject()));
      }
    }
    return condition.test(masked) == Truth.TRUE;
  }

  /** The signals without which it would hold by fewer readings; empty where it needs none. */
  Set<String> signals() {
    if (signals.size() > MOST_SIGNALS) {
      return new LinkedHashSet<>(signals);
    }
    List<Set<String>> enough = new ArrayList<>();
    for (Set<String> some : bySize()) {
      boolean least = enough.stream().noneMatch(some::containsAll);
      if (least && holdsBy(some)) {
        enough.add(some);
      }
    }
    Set<String> grounds = new LinkedHashSet<>();
    enough.forEach(grounds::addAll);
    return grounds;
  }

  /** All sets of the signals, small ones first; none where there are too many to try. */
  List<Set<String>> bySize() {
    if (signals.size() > MOST_SIGNALS) {
      return List.of();
    }
    List<Set<String>> sets = new ArrayList<>();
    for (int bits = 0; bits < 1 << signals.size(); bits++) {
      Set<String> set = new LinkedHashSet<>();
      for (int i = 0; i < signals.size(); i++) {
        if ((bits >> i & 1) == 1) {
          set.add(signals.get(i));
        }
      }
      sets.add(set);
    }
    sets.sort(java.util.Comparator.comparingInt(Set::size));
    return sets;
  }
}
