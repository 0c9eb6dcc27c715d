package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.junit.jupiter.api.Test;

/** It does not matter in which unit of its kind a quantity is written. */
class UnitsInRulesTest {

  @Provide
  Arbitrary<Sample> conditions() {
    return Sample.conditions(Grower.Bed.STEADY);
  }

  @Property(tries = 6000)
  void anotherUnitGivesTheSameAnswer(@ForAll("conditions") Sample sample) {
    Expression restated = new Restated(sample.random).of(sample.tree);
    Optional<Condition> other =
        Condition.of(
            restated, sample.world.vocabulary(), sample.world.layout, sample.world.problems);
    Readings readings = new Readings(sample.world.layout.build(), sample.readings.values());
    assertThat(other.orElseThrow().test(readings.frame()))
        .as("%s%n%s", Printer.text(restated), sample)
        .isEqualTo(sample.condition.orElseThrow().test(sample.readings.frame()));
  }

  @Test
  void oneStretchOfTimeIsOneDemandInWhateverUnit() {
    World world = new World();
    Problems problems = new Problems();
    for (String time : new String[] {"42 s", "0.7 min", "0:42", "0.0116666666667 h"}) {
      assertThat(
              RuleText.expression(Span.all("test", "change(rpe, " + time + ") > 1"), problems)
                  .flatMap(tree -> Condition.of(tree, world.vocabulary(), world.layout, problems)))
          .isPresent();
    }
    Layout layout = world.layout.build();
    assertThat(layout.demands()).extracting(Demand::seconds).containsExactlyInAnyOrder(0.0, 42.0);
    assertThat(new Readings(layout, Map.of()).missing()).hasSize(2);
  }
}
