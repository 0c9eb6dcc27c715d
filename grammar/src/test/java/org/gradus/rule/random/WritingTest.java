package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.rule.syntax.GradusParser;

/** Every tree has a text, and every text one tree. */
class WritingTest {

  @Provide
  Arbitrary<Sample> samples() {
    return Sample.samples(Grower.Bed.EVERYTHING);
  }

  @Property(tries = 10_000)
  void aTreeComesBackFromItsShortestTextAndTheParserSeesNoOtherReading(
      @ForAll("samples") Sample sample) {
    String text = Printer.text(sample.tree);
    assertThat(Printer.structure(sample.parsed)).as(text).isEqualTo(Printer.structure(sample.tree));
    assertThat(Printer.text(sample.parsed)).isEqualTo(text);
    assertThat(OneReading.complaints(text, GradusParser::expression)).isEmpty();
  }
}
