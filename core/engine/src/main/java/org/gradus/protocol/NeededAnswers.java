package org.gradus.protocol;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.gradus.rule.check.Demand;

/**
 * The questions without whose answers a test cannot begin: its loads, or its rules while it lasts,
 * rest on them, and once it has begun nothing is asked any more.
 */
final class NeededAnswers {

  private NeededAnswers() {}

  static Set<String> of(Protocol protocol) {
    Set<String> names = new TreeSet<>();
    demands(protocol)
        .filter(demand -> demand.aspect() == Demand.Aspect.VALUE)
        .forEach(
            demand -> {
              if (protocol.wiring().fact(demand) instanceof Fact.Answer answer) {
                names.add(answer.question());
              }
            });
    return names;
  }

  private static Stream<Demand> demands(Protocol protocol) {
    List<ProtocolRule> rules = new ArrayList<>(protocol.rules().anyTime());
    protocol.stages().forEach(stage -> rules.addAll(protocol.rulesAtEndOf(stage)));
    List<Stage> stages = new ArrayList<>(protocol.stages());
    protocol.recovery().ifPresent(recovery -> stages.addAll(recovery.stages()));
    return Stream.concat(
        rules.stream()
            .flatMap(rule -> rule.rule().condition().stream())
            .map(condition -> condition.demands())
            .flatMap(Collection::stream),
        stages.stream()
            .flatMap(stage -> stage.loads().stream())
            .flatMap(load -> load.formulas().stream())
            .flatMap(formula -> formula.demands().stream()));
  }
}
