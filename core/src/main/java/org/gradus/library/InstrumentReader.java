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
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText.QuantityRange;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Reads what can be told to a test, signals, scales, signs and inputs, and printed tables. */
final class InstrumentReader {

  private static final String YES_NO = "yes-no";
  private static final String CHOICE = "choice";

  private final Texts texts;

  InstrumentReader(Texts texts) {
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
    for (Entry entry : keys.entries("inputs")) {
      keep(entry, "an input", this::question, draft.questions, draft);
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
    String signal = Texts.string(keys.needText("of"));
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
            new Sign(name, Texts.string(ask.or(() -> watch)), ask.isPresent(), top, lasts))
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

  private Optional<Draft.Ask> question(String name, Keys keys) {
    Optional<Scalar> kind = keys.needText("kind");
    boolean choice = kind.filter(word -> word.value().equals(CHOICE)).isPresent();
    boolean yesNo = kind.filter(word -> word.value().equals(YES_NO)).isPresent();
    List<Scalar> options = choice ? keys.needTexts("options") : keys.texts("options");
    String prompt = Texts.string(keys.needText("ask"));
    Optional<Scalar> range = keys.text("range");
    Optional<Scalar> condition = keys.text("unless");
    Optional<Expression> unless = condition.flatMap(texts::expression);
    Citation source = texts.source(keys);
    keys.done();
    if (!choice) {
      keys.idle("options", "an input that is no choice", "write kind: choice");
    }
    if (!yesNo) {
      keys.idle("unless", "an input that is no yes-no", "only a yes or no has a natural answer");
    }
    if (choice || yesNo) {
      keys.idle("range", "an input that is no measure", "give it the kind of a measure");
    }
    Optional<Type> type = kind.flatMap(word -> answerType(word, options));
    Optional<QuantityRange> limits =
        type.filter(Type.Measure.class::isInstance)
            .flatMap(
                measure ->
                    range.flatMap(text -> texts.range(text, ((Type.Measure) measure).kind())));
    return condition.isPresent() && unless.isEmpty()
        ? Optional.empty()
        : type.map(answer -> new Draft.Ask(answer, prompt, limits, unless, source));
  }

  private Optional<Type> answerType(Scalar kind, List<Scalar> options) {
    if (kind.value().equals(YES_NO)) {
      return Optional.of(Type.CONDITION);
    } else if (kind.value().equals(CHOICE)) {
      return options.isEmpty() ? Optional.empty() : texts.options(options).map(Type.Choice::new);
    }
    List<String> words = Texts.kinds();
    words.addAll(List.of(YES_NO, CHOICE));
    return texts.word(kind, words, word -> word).flatMap(Kind::named).map(Type.Measure::new);
  }
}
