package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Gap.Cause;

/** An unknown names what would settle it. */
class GapsTest {

  @Provide
  Arbitrary<Sample> samples() {
    return Sample.samples(Grower.Bed.EVERYTHING);
  }

  @Provide
  Arbitrary<Sample> plain() {
    return Sample.samples(Grower.Bed.PLAIN);
  }

  @Property(tries = 4000)
  void whatIsUnknownNamesAGapAndWhatIsKnownNone(@ForAll("samples") Sample sample) {
    boolean known = sample.answer(sample.readings).isPresent();
    assertThat(sample.gaps(sample.readings).isEmpty()).as("%s", sample).isEqualTo(known);
  }

  @Property(tries = 4000)
  void aGapIsAnEmptySlotOrCannotBeClosed(@ForAll("samples") Sample sample) {
    List<String> empty = sample.readings.missing().stream().map(Readings::gap).toList();
    assertThat(sample.gaps(sample.readings))
        .as("%s", sample)
        .allSatisfy(
            gap -> assertThat(empty.contains(gap.subject())).isEqualTo(!cannotBeClosed(gap)));
  }

  private static boolean cannotBeClosed(Gap gap) {
    return List.of(Cause.UNDEFINED, Cause.NONE, Cause.OUT_OF_RANGE).contains(gap.cause());
  }

  // A definition with several alternatives names first what decides between them, and only then
  // what the chosen one needs; known() may send a rule another way when something becomes known.
  @Property(tries = 3000)
  void closingGapsAsLongAsThereAreAnySettlesEverything(@ForAll("samples") Sample sample) {
    Readings readings = sample.readings;
    for (int round = 0; round <= sample.layout.size(); round++) {
      readings = closed(sample, readings);
    }
    assertThat(sample.gaps(readings)).as("%s", sample).allMatch(GapsTest::cannotBeClosed);
  }

  @Property(tries = 4000)
  void otherwiseClosingThemOnceSettlesEverything(@ForAll("plain") Sample sample) {
    Readings readings = closed(sample, sample.readings);
    assertThat(sample.gaps(readings)).as("%s", sample).allMatch(GapsTest::cannotBeClosed);
  }

  private static Readings closed(Sample sample, Readings readings) {
    List<String> named = sample.gaps(readings).stream().map(Gap::subject).toList();
    Readings filled = readings;
    for (int slot : readings.missing()) {
      if (named.contains(Readings.gap(slot))) {
        filled =
            filled.with(slot, Readings.value(sample.layout.demands().get(slot), sample.random));
      }
    }
    return filled;
  }
}
