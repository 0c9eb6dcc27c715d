package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.rule.plan.Frame;

/** What a plan answers is what the language says, and always an answer. */
class TwinTest {

  @Provide
  Arbitrary<Sample> samples() {
    return Sample.samples(Grower.Bed.EVERYTHING);
  }

  @Provide
  Arbitrary<Sample> values() {
    return Sample.values(Grower.Bed.EVERYTHING);
  }

  @Property(tries = 20_000)
  void thePlanAgreesWithASimpleEvaluator(@ForAll("samples") Sample sample) {
    agree(sample.answer(sample.readings), sample.twin(sample.readings), sample);
  }

  private static void agree(Optional<Object> planned, Optional<Object> simple, Sample sample) {
    if (planned.isPresent() && planned.get() instanceof Double number) {
      assertThat(simple).as("%s", sample).isPresent();
      double other = (Double) simple.orElseThrow();
      assertThat(number).as("%s", sample).isEqualTo(other, within(1e-9 * Math.abs(other)));
    } else {
      assertThat(planned).as("%s", sample).isEqualTo(simple);
    }
  }

  @Property(tries = 3000)
  void aKnownNumberIsFinite(@ForAll("values") Sample sample) {
    double value = sample.formula.orElseThrow().value(sample.readings.frame());
    assertThat(Double.isInfinite(value)).as("%s", sample).isFalse();
  }

  @Property(tries = 2000)
  void aFrameThatIsFilledAgainForgetsWhatItHadWorkedOut(@ForAll("samples") Sample sample) {
    Readings before = Readings.random(sample.layout, sample.random);
    Frame frame = before.frame();
    sample.answer(frame);
    for (int slot = 0; slot < sample.layout.size(); slot++) {
      if (sample.readings.has(slot)) {
        frame.set(slot, sample.readings.value(slot), 0);
      } else {
        frame.miss(slot, sample.readings.frame().gap(slot));
      }
    }
    assertThat(sample.answer(frame)).as("%s", sample).isEqualTo(sample.answer(sample.readings));
  }

  @Property(tries = 2000)
  void everyAnswerCanBeExplained(@ForAll("samples") Sample sample) {
    Frame frame = sample.readings.frame();
    String explained =
        sample
            .condition
            .map(condition -> condition.filled(frame))
            .orElseGet(() -> sample.formula.orElseThrow().filled(frame))
            .toString();
    assertThat(explained.replaceAll(" \\[[^]]*]", "")).startsWith(Printer.text(sample.tree));
  }
}
