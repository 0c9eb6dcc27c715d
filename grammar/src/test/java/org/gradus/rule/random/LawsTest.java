package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Quantity;

/** The laws of a logic in which something may be unknown. */
class LawsTest {

  @Provide
  Arbitrary<Sample> conditions() {
    return Sample.conditions(Grower.Bed.EVERYTHING);
  }

  @Provide
  Arbitrary<Sample> withoutKnown() {
    return Sample.samples(Grower.Bed.WITHOUT_KNOWN);
  }

  // a and b are two random conditions over one set of readings; each line is one law.
  @Property(tries = 500)
  void theLawsOfThreeValuedLogicHold(@ForAll("conditions") Sample sample) {
    Grower grower = new Grower(sample.random, sample.world, Grower.Bed.EVERYTHING);
    String a = "(" + Printer.text(sample.tree) + ")";
    String b = "(" + Printer.text(grower.condition(1)) + ")";
    List<List<String>> laws =
        List.of(
            List.of(a + " and " + b, b + " and " + a),
            List.of(a + " or " + b, b + " or " + a),
            List.of("not not " + a, a),
            List.of(a + " and " + a, a),
            List.of(a + " or " + a, a),
            List.of("not (" + a + " and " + b + ")", "not " + a + " or not " + b),
            List.of("not (" + a + " or " + b + ")", "not " + a + " and not " + b),
            List.of(a + " and (" + a + " or " + b + ")", a),
            List.of(a + " or (" + a + " and " + b + ")", a),
            List.of("if " + a + " then " + b + " else " + b, b));
    for (List<String> law : laws) {
      Condition left = condition(sample, law.get(0));
      Condition right = condition(sample, law.get(1));
      Layout layout = sample.world.layout.build();
      Frame frame = new Readings(layout, sample.readings.values()).frame();
      assertThat(left.test(frame)).as("%s%n%s", law, sample).isEqualTo(right.test(frame));
    }
  }

  private static Condition condition(Sample sample, String text) {
    Vocabulary vocabulary = sample.world.vocabulary();
    Problems problems = new Problems();
    return RuleText.expression(Span.all("law", text), problems)
        .flatMap(tree -> Condition.of(tree, vocabulary, sample.world.layout, problems))
        .orElseThrow(() -> new AssertionError(problems.sorted().toString()));
  }

  @Property(tries = 3000)
  void oneMoreReadingNeverChangesAKnownAnswer(@ForAll("withoutKnown") Sample sample) {
    Optional<Object> before = sample.answer(sample.readings);
    if (before.isEmpty()) {
      return;
    }
    for (int slot : sample.readings.missing()) {
      double value = Readings.value(sample.layout.demands().get(slot), sample.random);
      Optional<Object> after = sample.answer(sample.readings.with(slot, value));
      assertThat(after)
          .as("with %s in slot %s: %s", value, slot, sample)
          .hasValueSatisfying(answer -> assertThat(same(before.get(), answer)).isTrue());
    }
  }

  // Two branches that agree up to the tolerance of the language may differ in the last digits.
  private static boolean same(Object before, Object after) {
    return (before instanceof Double a && after instanceof Double b)
        ? Quantity.same(a, b)
        : before.equals(after);
  }

  @Property(tries = 2000)
  void aConditionIsNeitherTrueNorFalseOnlyWhenAskedToBeBoth(@ForAll("conditions") Sample sample) {
    Truth plain = sample.condition.orElseThrow().test(sample.readings.frame());
    Truth denied =
        condition(sample, "not (" + Printer.text(sample.tree) + ")").test(sample.readings.frame());
    assertThat(denied.isKnown()).isEqualTo(plain.isKnown());
    assertThat(denied == plain).isEqualTo(!plain.isKnown());
  }
}
