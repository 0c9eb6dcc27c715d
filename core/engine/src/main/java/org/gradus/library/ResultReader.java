package org.gradus.library;

import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.LineRise;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/** Reads which results are possible at all, and when a line through stages counts as rising. */
final class ResultReader {

  private static final int MOST_STANDARD_ERRORS = 10;

  private final ScalarParser texts;
  private final Problems problems;
  private final Shelf shelf;

  ResultReader(ScalarParser texts, Shelf shelf) {
    this.texts = texts;
    this.problems = texts.problems();
    this.shelf = shelf;
  }

  void read(Keys keys) {
    for (YamlNode item : keys.items("results")) {
      Keys.of(item, "a plausible range", problems).ifPresent(this::result);
    }
    keys.keys("line_rise", "line_rise").ifPresent(this::rise);
  }

  private void result(Keys keys) {
    Optional<Scalar> id = keys.needText("id");
    Optional<String> result = id.filter(texts::isName).map(Scalar::value);
    boolean capacity = result.filter(Names.VO2MAX::equals).isPresent();
    Optional<QuantityRange> range =
        keys.needText("range")
            .flatMap(text -> capacity ? texts.range(text, Kind.UPTAKE) : texts.range(text));
    Optional<Scalar> check = keys.needText("check");
    Citation source = texts.neededSource(keys);
    keys.done();
    if (result.isPresent() && range.isPresent() && check.isPresent()) {
      PlausibleRange plausible =
          new PlausibleRange(result.get(), range.get(), check.get().value().strip(), source);
      if (shelf.results.putIfAbsent(result.get(), plausible) != null) {
        problems.add(id.get().span(), Code.G306, "the plausible range of " + result.get());
      }
    }
  }

  private void rise(Keys keys) {
    Optional<Scalar> errors = keys.needText("standard_errors");
    Optional<Double> many =
        errors.flatMap(text -> texts.quantity(text, Kind.NUMBER)).map(Quantity::base);
    Citation source = texts.neededSource(keys);
    keys.done();
    if (many.isPresent() && !(many.get() > 0 && many.get() <= MOST_STANDARD_ERRORS)) {
      texts.notA(
          errors.orElseThrow(),
          "a number of standard errors",
          "write a number above 0 and up to " + MOST_STANDARD_ERRORS + ", such as 2");
    } else if (many.isPresent()) {
      if (shelf.lineRise.isPresent()) {
        problems.add(errors.orElseThrow().span(), Code.G306, "line_rise");
      }
      shelf.lineRise = shelf.lineRise.or(() -> many.map(found -> new LineRise(found, source)));
    }
  }
}
