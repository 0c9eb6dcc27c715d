package org.gradus.library;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Reads what can be told to a test, signals, scales, signs and inputs, and printed tables. */
final class InstrumentReader {

  private final ScalarParser texts;

  InstrumentReader(ScalarParser texts) {
    this.texts = texts;
  }

  void read(Keys keys, Draft draft) {
    for (Entry entry : keys.entries("signals")) {
      keep(entry, "a signal", this::signal, draft.signals, draft);
    }
    for (Entry entry : keys.entries("scales")) {
      keep(entry, "a scale", this::scale, draft.scales, draft);
    }
    TableReader tables = new TableReader(texts);
    for (Entry entry : keys.entries("tables")) {
      keep(entry, "a table", tables::table, draft.tables, draft);
    }
    for (Entry entry : keys.entries("signs")) {
      keep(entry, "a sign", this::sign, draft.signs, draft);
    }
    QuestionReader questions = new QuestionReader(texts);
    for (Entry entry : keys.entries("inputs")) {
      keep(entry, "an input", questions::question, draft.questions, draft);
    }
  }

  private interface Read<T> {
    Optional<T> from(String name, Keys keys);
  }

  private <T> void keep(
      Entry entry, String what, Read<T> read, Map<String, Placed<T>> all, Draft draft) {
    String name = entry.key().value();
    Optional<T> found =
        texts.isName(entry.key())
            ? Keys.of(entry.value(), what, texts.problems()).flatMap(keys -> read.from(name, keys))
            : Optional.empty();
    found.ifPresentOrElse(
        value -> all.put(name, new Placed<>(entry.key().span(), value)),
        () -> draft.faulty.add(name));
  }

  private Optional<Signal> signal(String name, Keys keys) {
    Optional<Kind> kind = keys.needText("kind").flatMap(word -> texts.constant(word, Kind.class));
    Optional<Scalar> range = keys.needText("range");
    Optional<Scalar> step = keys.text("step");
    Optional<String> below = keys.text("below").map(Scalar::value);
    Citation source = texts.source(keys);
    keys.done();
    if (kind.isEmpty()) {
      return Optional.empty();
    }
    // Of a known kind its uses can be checked even when its range is wrong.
    return Optional.of(
        new Signal(
            name,
            new Type.Measure(kind.get()),
            range.flatMap(text -> texts.range(text, kind.get())),
            step.flatMap(text -> texts.step(text, kind.get())),
            below,
            source));
  }

  private Optional<Scale> scale(String name, Keys keys) {
    String signal = ScalarParser.string(keys.needText("of"));
    Optional<QuantityRange> range =
        keys.needText("range").flatMap(text -> texts.range(text, Kind.NUMBER));
    Quantity step =
        keys.text("step")
            .flatMap(text -> texts.step(text, Kind.NUMBER))
            .orElse(Quantity.of(1, Unit.ONE));
    Citation source = texts.source(keys);
    keys.done();
    return range.map(
        ends ->
            new Scale(name, signal, ends.low().base(), ends.high().base(), step.base(), source));
  }

  private Optional<Sign> sign(String name, Keys keys) {
    boolean both = keys.has("ask") && keys.has("watch");
    boolean neither = !keys.has("ask") && !keys.has("watch");
    Optional<Scalar> ask = keys.text("ask");
    Optional<Scalar> watch = keys.text("watch");
    boolean graded = keys.has("graded");
    OptionalInt top = keys.text("graded").map(this::grades).orElse(OptionalInt.empty());
    boolean lasts =
        keys.text("lasts")
            .flatMap(word -> texts.word(word, List.of("until withdrawn"), w -> w))
            .isPresent();
    if (both || (neither && keys.misspelt().isEmpty())) {
      texts
          .problems()
          .add(
              keys.start(),
              Code.G304,
              "either ask or watch",
              both ? "both" : "neither",
              "say how the sign comes to be known");
    }
    keys.done();
    boolean sound = !graded || top.isPresent();
    return sound
        ? Optional.of(
            new Sign(name, ScalarParser.string(ask.or(() -> watch)), ask.isPresent(), top, lasts))
        : Optional.empty();
  }

  private OptionalInt grades(Scalar text) {
    Optional<QuantityRange> range = texts.range(text, Kind.NUMBER);
    if (range.isEmpty()) {
      return OptionalInt.empty();
    }
    double top = range.get().high().base();
    if (range.get().low().base() != 0 || top < 1 || top != Math.rint(top) || top > 100) {
      texts.notA(text, "a range of grades", "write 0 to 4");
      return OptionalInt.empty();
    }
    return OptionalInt.of((int) top);
  }
}
