package org.gradus.library;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.knowledge.ModelError;
import org.gradus.knowledge.Repeat;
import org.gradus.knowledge.Spread;
import org.gradus.knowledge.Spread.Per;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * Reads how much readings and whole answers differ when nothing about the person does, and how far
 * the models of methods may be off.
 */
final class SpreadReader {

  static final List<String> PURPOSES = List.of("submaximal", "maximal");

  private final ScalarParser texts;
  private final Problems problems;
  private final Shelf shelf;

  SpreadReader(ScalarParser texts, Shelf shelf) {
    this.texts = texts;
    this.problems = texts.problems();
    this.shelf = shelf;
  }

  void read(Keys keys) {
    for (YamlNode item : keys.items("spreads")) {
      Keys.of(item, "a spread", problems).ifPresent(this::spread);
    }
    for (YamlNode item : keys.items("repeats")) {
      Keys.of(item, "a spread of repeated tests", problems).ifPresent(this::repeat);
    }
    for (YamlNode item : keys.items("models")) {
      Keys.of(item, "a model", problems).ifPresent(this::model);
    }
  }

  private void spread(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Kind> of =
        keys.needText("of")
            .flatMap(text -> texts.word(text, ScalarParser.kinds(), word -> word))
            .flatMap(Kind::named);
    Optional<Quantity> sd =
        keys.needText("sd")
            .flatMap(text -> of.flatMap(kind -> texts.spread(text, List.of(kind, Kind.NUMBER))));
    Optional<Per> per = keys.needText("per").flatMap(word -> texts.constant(word, Per.class));
    Citation source = texts.neededSource(keys);
    keys.done();
    if (id.isPresent() && sd.isPresent() && per.isPresent()) {
      put(
          shelf.spreads,
          id.get(),
          new Spread(id.get().value(), of.orElseThrow(), sd.get(), per.get(), source));
    }
  }

  private void repeat(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<String> purpose =
        keys.needText("purpose").flatMap(text -> texts.word(text, PURPOSES, word -> word));
    Optional<Quantity> sd =
        keys.needText("sd").flatMap(text -> texts.spread(text, List.of(Kind.NUMBER, Kind.UPTAKE)));
    Citation source = texts.neededSource(keys);
    keys.done();
    if (id.isPresent() && purpose.isPresent() && sd.isPresent()) {
      put(shelf.repeats, id.get(), new Repeat(id.get().value(), purpose.get(), sd.get(), source));
    }
  }

  private void model(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Quantity> sd =
        keys.needText("sd").flatMap(text -> texts.spread(text, List.of(Kind.UPTAKE, Kind.NUMBER)));
    Citation source = texts.neededSource(keys);
    keys.done();
    if (id.isPresent() && sd.isPresent()) {
      put(shelf.models, id.get(), new ModelError(id.get().value(), sd.get(), source));
    } else {
      id.ifPresent(name -> shelf.faulty.add(name.value()));
    }
  }

  private <T> void put(Map<String, T> shelved, Scalar id, T value) {
    if (shelved.putIfAbsent(id.value(), value) != null) {
      problems.add(id.span(), Code.G306, "the spread " + id.value());
    }
  }
}
