package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Code;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Eligibility.Outside;
import org.gradus.protocol.Scale;
import org.gradus.protocol.Sign;
import org.gradus.protocol.Signal;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText.QuantityRange;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Reads the parts that rule sets and protocols have in common. */
final class SetReader {

  private final Texts texts;
  private final RuleReader rules;
  private final ScheduleReader schedules;
  private final StageReader stages;

  SetReader(Texts texts) {
    this.texts = texts;
    this.rules = new RuleReader(texts);
    this.schedules = new ScheduleReader(texts);
    this.stages = new StageReader(texts, rules);
  }

  RuleReader rules() {
    return rules;
  }

  StageReader stages() {
    return stages;
  }

  /** Takes the common keys and puts what stands under them into a draft. */
  void read(Keys keys, Draft draft) {
    draft.sources.addAll(draft.header.citations());
    draft.eligibility = keys.keys("for", "for").flatMap(this::eligibility);
    keys.entries("signals").forEach(entry -> signal(entry, draft));
    keys.entries("scales").forEach(entry -> scale(entry, draft));
    keys.entries("signs").forEach(entry -> sign(entry, draft));
    new SettingReader(texts).read(keys.entries("settings"), draft.settings);
    keys.entries("define").forEach(entry -> define(entry, draft));
    keys.entries("inputs").forEach(entry -> question(entry, draft));
    keys.keys("before", "before").ifPresent(before -> before(before, draft));
    draft.measure.addAll(schedules.lines(keys.items("measure"), draft.signals));
    draft.anyTime.addAll(rules.rules(keys.items("any_time"), "any_time"));
    draft.result.addAll(rules.rules(keys.items("result"), "result"));
    draft.recovery =
        keys.keys("recovery", "recovery").flatMap(recovery -> recovery(recovery, draft));
  }

  private Optional<Eligibility> eligibility(Keys keys) {
    Optional<QuantityRange> ages = keys.needText("age").flatMap(texts::range);
    Set<String> needs = new TreeSet<>();
    for (Scalar need : keys.texts("needs")) {
      texts.constant(need, Attribute.class).ifPresent(attribute -> needs.add(attribute.word()));
    }
    Outside outside =
        keys.text("outside")
            .flatMap(word -> texts.constant(word, Outside.class))
            .orElse(Outside.DEFER);
    keys.done();
    if (ages.isPresent() && ages.get().low().kind() != Kind.AGE) {
      texts
          .problems()
          .add(
              keys.span(),
              Code.G305,
              ages.get().toString(),
              "a range of ages",
              "write 18 years to 65 years");
      return Optional.empty();
    }
    return ages.map(
        range ->
            new Eligibility((int) range.low().base(), (int) range.high().base(), needs, outside));
  }

  private void signal(Entry entry, Draft draft) {
    Optional<Keys> of = Keys.of(entry.value(), "a signal", texts.problems());
    if (of.isEmpty() || !texts.isName(entry.key())) {
      return;
    }
    Keys keys = of.get();
    Optional<Kind> kind = keys.needText("kind").flatMap(word -> texts.constant(word, Kind.class));
    Optional<QuantityRange> range = keys.needText("range").flatMap(texts::range);
    Optional<Quantity> step = keys.text("step").flatMap(texts::quantity);
    Optional<String> below = keys.text("below").map(Scalar::value);
    texts.source(keys.text("source"));
    keys.done();
    boolean mixed =
        kind.isPresent()
            && (range.filter(r -> r.low().kind() != kind.get()).isPresent()
                || step.filter(s -> s.kind() != kind.get()).isPresent());
    if (mixed) {
      texts
          .problems()
          .add(
              keys.span(),
              Code.G305,
              "the range or step of " + entry.key().value(),
              kind.get().phrase(),
              "give it in units such as " + kind.get().base().symbol());
    } else if (kind.isPresent() && range.isPresent()) {
      Signal signal =
          new Signal(entry.key().value(), new Type.Measure(kind.get()), range, step, below);
      draft.signals.put(entry.key().value(), new Placed<>(entry.key().span(), signal));
    }
  }

  private void scale(Entry entry, Draft draft) {
    Optional<Keys> of = Keys.of(entry.value(), "a scale", texts.problems());
    if (of.isEmpty() || !texts.isName(entry.key())) {
      return;
    }
    Keys keys = of.get();
    String signal = Texts.string(keys.needText("of"));
    Optional<QuantityRange> range = keys.needText("range").flatMap(texts::range);
    Quantity step = keys.text("step").flatMap(texts::quantity).orElse(Quantity.of(1, Unit.ONE));
    Citation source = texts.source(keys.text("source"));
    keys.done();
    range.ifPresent(
        ends -> {
          Scale scale =
              new Scale(
                  entry.key().value(),
                  signal,
                  ends.low().base(),
                  ends.high().base(),
                  step.base(),
                  source);
          draft.scales.put(scale.name(), new Placed<>(entry.key().span(), scale));
        });
  }

  private void sign(Entry entry, Draft draft) {
    Optional<Keys> of = Keys.of(entry.value(), "a sign", texts.problems());
    if (of.isEmpty() || !texts.isName(entry.key())) {
      return;
    }
    Keys keys = of.get();
    Optional<Scalar> ask = keys.text("ask");
    Optional<Scalar> watch = keys.text("watch");
    OptionalInt top = keys.text("graded").map(this::grades).orElse(OptionalInt.empty());
    boolean lasts =
        keys.text("lasts")
            .flatMap(word -> texts.word(word, List.of("until withdrawn"), w -> w))
            .isPresent();
    keys.done();
    if (ask.isPresent() == watch.isPresent()) {
      texts
          .problems()
          .add(
              entry.key().span(),
              Code.G304,
              "either ask or watch",
              ask.isPresent() ? "both" : "neither",
              "say how the sign comes to be known");
    }
    Sign sign =
        new Sign(
            entry.key().value(), Texts.string(ask.or(() -> watch)), ask.isPresent(), top, lasts);
    draft.signs.put(sign.name(), new Placed<>(entry.key().span(), sign));
  }

  private OptionalInt grades(Scalar text) {
    Optional<QuantityRange> range = texts.range(text);
    if (range.isEmpty() || range.get().low().base() != 0 || range.get().high().base() < 1) {
      texts.notA(text, "a range of grades", "write 0 to 4");
      return OptionalInt.empty();
    }
    return OptionalInt.of((int) range.get().high().base());
  }

  private void define(Entry entry, Draft draft) {
    if (!texts.isName(entry.key())) {
      return;
    }
    Optional<Scalar> text;
    Citation source = Citation.NONE;
    if (entry.value() instanceof Scalar scalar) {
      text = Optional.of(scalar);
    } else {
      Optional<Keys> keys = Keys.of(entry.value(), "a definition", texts.problems());
      text = keys.flatMap(found -> found.needText("value"));
      source =
          keys.map(
                  found ->
                      RuleReader.withNote(
                          texts.source(found.text("source")), Texts.string(found.text("note"))))
              .orElse(source);
      keys.ifPresent(Keys::done);
    }
    Citation from = source;
    text.flatMap(texts::expression)
        .ifPresent(
            body ->
                draft.defines.put(
                    entry.key().value(),
                    new Placed<>(entry.key().span(), new Draft.Define(body, from))));
  }

  private void question(Entry entry, Draft draft) {
    Optional<Keys> of = Keys.of(entry.value(), "an input", texts.problems());
    if (of.isEmpty() || !texts.isName(entry.key())) {
      return;
    }
    Keys keys = of.get();
    Optional<Scalar> kind = keys.needText("kind");
    List<String> options = keys.texts("options").stream().map(Scalar::value).toList();
    String prompt = Texts.string(keys.needText("ask"));
    Optional<QuantityRange> range = keys.text("range").flatMap(texts::range);
    Optional<Expression> unless = keys.text("unless").flatMap(texts::expression);
    texts.source(keys.text("source"));
    keys.done();
    kind.flatMap(word -> answerType(word, options))
        .ifPresent(
            type ->
                draft.questions.put(
                    entry.key().value(),
                    new Placed<>(entry.key().span(), new Draft.Ask(type, prompt, range, unless))));
  }

  private Optional<Type> answerType(Scalar kind, List<String> options) {
    if (kind.value().equals("yes-no")) {
      return Optional.of(Type.CONDITION);
    } else if (kind.value().equals("choice")) {
      return Optional.of(new Type.Choice(options));
    }
    List<String> words = new ArrayList<>(List.of("yes-no", "choice"));
    for (Kind value : Kind.values()) {
      words.add(value.id());
    }
    return texts.word(kind, words, word -> word).flatMap(Kind::named).map(Type.Measure::new);
  }

  private void before(Keys keys, Draft draft) {
    draft.baselines.addAll(schedules.baselines(keys.items("measure")));
    draft.before.addAll(rules.rules(keys.items("rules"), "before"));
    keys.done();
  }

  private Optional<RecoveryDraft> recovery(Keys keys, Draft draft) {
    Optional<Duration> atMost = keys.needText("at_most").flatMap(texts::stretch);
    List<StageDraft> read =
        stages.recoveryStages(keys.items("stages"), atMost.orElse(Duration.ZERO));
    List<Placed<org.gradus.protocol.MeasureLine>> measure =
        schedules.lines(keys.items("measure"), draft.signals);
    List<RuleDraft> recoveryRules = rules.rules(keys.items("rules"), "recovery");
    keys.done();
    if (read.isEmpty()) {
      texts.problems().add(keys.span(), Code.G303, "recovery", "stages");
      return Optional.empty();
    }
    return atMost.map(limit -> new RecoveryDraft(read, measure, recoveryRules, limit));
  }
}
