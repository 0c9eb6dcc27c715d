package org.gradus.protocol;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.rule.Formula;
import org.gradus.unit.Unit;

/**
 * A stage: a load for a time.
 *
 * @param id its name; rules may ask {@code stage is walk_2}
 * @param place its place in the protocol, from 0
 * @param lasts how long it is planned to last
 * @param loads what makes up the load; none: without load
 * @param warmUp whether it is left out of counts and estimates
 * @param ownRules rules that are looked at when it is due to end, instead of the common ones
 */
public record Stage(
    String id,
    int place,
    Duration lasts,
    List<Load> loads,
    boolean warmUp,
    Optional<List<ProtocolRule>> ownRules) {

  /**
   * One component of a load.
   *
   * @param name {@code speed}, {@code grade}, {@code power} and so on
   * @param value how much
   * @param unit the unit to show it in
   */
  public record Load(String name, Formula value, Unit unit) {}

  public Stage {
    loads = List.copyOf(loads);
    ownRules = ownRules.map(List::copyOf);
  }
}
