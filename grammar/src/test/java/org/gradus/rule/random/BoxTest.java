package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.rule.Condition;
import org.gradus.rule.Resolution;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Layout;
import org.gradus.rule.plan.Frame;
import org.gradus.unit.Type;

/** What a node gives over a box may contain an outcome that cannot happen; it misses none. */
class BoxTest {

  private static final int POINTS = 6;

  @Provide
  Arbitrary<Sample> conditions() {
    return Sample.conditions(Grower.Bed.EVERYTHING);
  }

  @Provide
  Arbitrary<Sample> values() {
    return Sample.values(Grower.Bed.EVERYTHING);
  }

  @Provide
  Arbitrary<Sample> withoutKnown() {
    return Sample.conditions(Grower.Bed.WITHOUT_KNOWN);
  }

  @Property(tries = 5000)
  void everyAnswerInABoxIsAmongItsOutcomes(@ForAll("conditions") Sample sample) {
    Condition condition = sample.condition.orElseThrow();
    Box box = Boxes.random(sample.layout, sample.random);
    Outcomes outcomes = condition.outcomes(box);
    for (int i = 0; i < POINTS; i++) {
      Readings point = Boxes.inside(box, sample.layout, sample.random);
      Truth truth = condition.test(point.frame());
      assertThat(includes(outcomes, truth))
          .as("%s is not %s at %s in %s", outcomes, truth, point, sample)
          .isTrue();
    }
  }

  private static boolean includes(Outcomes outcomes, Truth truth) {
    return switch (truth) {
      case TRUE -> outcomes.canHold();
      case FALSE -> outcomes.canFail();
      case UNKNOWN -> outcomes.canBeUnknown();
    };
  }

  @Property(tries = 5000)
  void everyValueInABoxIsInItsRange(@ForAll("values") Sample sample) {
    Box box = Boxes.random(sample.layout, sample.random);
    Cell.Range range = sample.formula.orElseThrow().range(box);
    for (int i = 0; i < POINTS; i++) {
      Readings point = Boxes.inside(box, sample.layout, sample.random);
      double value = sample.formula.orElseThrow().value(point.frame());
      boolean inside =
          Double.isNaN(value)
              ? range.presence() != Presence.KNOWN
              : range.presence() != Presence.UNKNOWN
                  && range.low() <= value
                  && value <= range.high();
      assertThat(inside).as("%s not in %s at %s: %s", value, range, point, sample).isTrue();
    }
  }

  @Property(tries = 2000)
  void theBoxAroundAFrameContainsItsAnswer(@ForAll("conditions") Sample sample) {
    Frame frame = sample.readings.frame();
    for (int slot = 0; slot < sample.layout.size(); slot++) {
      if (frame.isKnown(slot)) {
        frame.set(slot, frame.value(slot), sample.random.nextInt(4));
      }
    }
    Condition condition = sample.condition.orElseThrow();
    assertThat(includes(condition.outcomes(Resolution.around(frame)), condition.test(frame)))
        .as("%s", sample)
        .isTrue();
  }

  @Property(tries = 4000)
  void anAssumptionLosesNoPointAtWhichItIsTrue(@ForAll("conditions") Sample sample) {
    Condition condition = sample.condition.orElseThrow();
    Box box = Boxes.random(sample.layout, sample.random);
    for (int i = 0; i < POINTS; i++) {
      Readings point = Boxes.inside(box, sample.layout, sample.random);
      Truth truth = condition.test(point.frame());
      if (truth.isKnown()) {
        Box narrower =
            truth == Truth.TRUE ? condition.whereItHolds(box) : condition.whereItFails(box);
        assertThat(Boxes.contains(narrower, point))
            .as("%s at %s in %s", truth, point, sample)
            .isTrue();
      }
    }
  }

  // Only the numbers vary here: which option holds and what is known stay the same.
  @Property(tries = 3000)
  void whereNumbersAloneCanTurnAnAnswerAComparisonIsNamed(@ForAll("withoutKnown") Sample sample) {
    Condition condition = sample.condition.orElseThrow();
    Readings fixed = Readings.random(sample.layout, sample.random);
    Box box = around(fixed);
    List<Truth> answers = new ArrayList<>();
    for (int i = 0; i < POINTS; i++) {
      Readings point = Boxes.inside(box, sample.layout, sample.random);
      for (int slot = 0; slot < sample.layout.size(); slot++) {
        if (fixed.has(slot) && !isNumber(sample.layout, slot)) {
          point = point.with(slot, fixed.value(slot));
        }
      }
      answers.add(condition.test(point.frame()));
    }
    if (answers.contains(Truth.TRUE) && answers.contains(Truth.FALSE)) {
      assertThat(condition.undecided(box)).as("%s", sample).isNotEmpty();
    }
  }

  private static boolean isNumber(Layout layout, int slot) {
    return layout.demands().get(slot).type() instanceof Type.Measure;
  }

  private static Box around(Readings fixed) {
    return Box.of(
        fixed.layout(),
        (slot, demand) -> {
          if (!fixed.has(slot)) {
            return Box.anything(demand.type()).with(Presence.UNKNOWN);
          }
          double value = fixed.value(slot);
          return demand.type() instanceof Type.Measure
              ? Cell.between(value - 20, value + 20)
              : new Cell.Options(Cell.Options.bit((int) value), Presence.KNOWN);
        });
  }

  @Property(tries = 500)
  void nothingIsSaidOfReadingsThatAreNotThere(@ForAll("conditions") Sample sample) {
    Readings none = new Readings(sample.layout, Map.of());
    Box box =
        Box.of(sample.layout, (slot, demand) -> Box.anything(demand.type()).with(Presence.UNKNOWN));
    Condition condition = sample.condition.orElseThrow();
    assertThat(includes(condition.outcomes(box), condition.test(none.frame()))).isTrue();
  }
}
