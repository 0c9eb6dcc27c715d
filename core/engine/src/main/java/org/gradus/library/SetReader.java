package org.gradus.library;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Brake;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Eligibility.Outside;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;

/** Reads the parts that rule sets and protocols have in common. */
final class SetReader {

  private final ScalarParser texts;
  private final Problems problems;
  private final RuleReader rules;
  private final ScheduleReader schedules;
  private final StageReader stages;

  SetReader(ScalarParser texts, RuleReader rules) {
    this.texts = texts;
    this.problems = texts.problems();
    this.rules = rules;
    this.schedules = new ScheduleReader(texts);
    this.stages = new StageReader(texts, rules);
  }

  /** Takes the common keys and puts what stands under them into a draft. */
  void read(Keys keys, Draft draft) {
    draft.sources.addAll(draft.header.citations());
    for (String key : Draft.ONLY_ONCE) {
      keys.place(key).ifPresent(place -> draft.places.put(key, place));
    }
    part("for", draft, () -> draft.eligibility = keys.keys("for", "for").flatMap(this::ages));
    part("usual", draft, () -> new NotesReader(texts).usual(keys, draft));
    part("signals", draft, () -> new InstrumentReader(texts).read(keys, draft));
    EquipmentReader equipment = new EquipmentReader(texts);
    part("loads", draft, () -> equipment.loads(keys.entries(Equipment.LOADS), draft));
    part("ergometers", draft, () -> equipment.ergometers(keys.entries(Equipment.ERGOMETERS)));
    part("settings", draft, () -> new SettingReader(texts).read(keys.entries("settings"), draft));
    part("define", draft, () -> keys.entries("define").forEach(entry -> define(entry, draft)));
    part(
        "before",
        draft,
        () -> keys.keys("before", "before").ifPresent(before -> before(before, draft)));
    part(
        "measure",
        draft,
        () -> draft.measure.addAll(schedules.lines(keys.items("measure"), draft)));
    part("brake", draft, () -> draft.brake = keys.keys("brake", "brake").flatMap(this::brake));
    part("cues", draft, () -> draft.cues.addAll(schedules.cues(keys.items("cues"))));
    part(
        "any_time",
        draft,
        () -> draft.anyTime.addAll(rules.rules(keys.items("any_time"), "any_time")));
    part("result", draft, () -> draft.result.addAll(rules.rules(keys.items("result"), "result")));
    part(
        "recovery",
        draft,
        () ->
            draft.recovery =
                keys.keys("recovery", "recovery").flatMap(after -> recovery(after, draft)));
  }

  /** Reads what stands under a key, and remembers when it could not be read whole. */
  void part(String key, Draft draft, Runnable read) {
    int before = problems.count();
    read.run();
    if (problems.count() > before) {
      draft.lost.add(key);
    }
  }

  private Optional<Eligibility> ages(Keys keys) {
    Optional<QuantityRange> ages =
        keys.needText("age").flatMap(text -> texts.range(text, Kind.AGE));
    Set<String> needs = new TreeSet<>();
    for (Scalar need : keys.texts("needs")) {
      texts.constant(need, Attribute.class).ifPresent(attribute -> needs.add(attribute.word()));
    }
    Outside outside =
        keys.text("outside")
            .flatMap(word -> texts.constant(word, Outside.class))
            .orElse(Outside.DEFER);
    String why = ScalarParser.string(keys.text("why"));
    keys.done();
    return ages.map(
        range ->
            new Eligibility(
                (int) range.low().base(), (int) range.high().base(), needs, outside, why));
  }

  private Optional<Brake> brake(Keys keys) {
    Optional<Quantity> travel =
        keys.needText("travel").flatMap(text -> texts.step(text, Kind.LENGTH));
    Citation source = texts.source(keys);
    keys.done();
    return travel.map(length -> new Brake(length, source));
  }

  private void define(Entry entry, Draft draft) {
    String name = entry.key().value();
    Optional<Draft.Define> found =
        texts.isName(entry.key()) ? define(entry.value()) : Optional.empty();
    found.ifPresentOrElse(
        define -> draft.defines.put(name, new Placed<>(entry.key().span(), define)),
        () -> draft.faulty.add(name));
  }

  private Optional<Draft.Define> define(YamlNode value) {
    if (value instanceof Scalar text && !text.value().isBlank()) {
      return texts.expression(text).map(body -> new Draft.Define(body, Citation.NONE));
    }
    Optional<Keys> of = Keys.of(value, "a definition", problems);
    if (of.isEmpty()) {
      return Optional.empty();
    }
    Keys keys = of.get();
    Optional<Expression> body = keys.needText("value").flatMap(texts::expression);
    Citation source = texts.source(keys);
    keys.done();
    return body.map(expression -> new Draft.Define(expression, source));
  }

  private void before(Keys keys, Draft draft) {
    draft.baselines.addAll(schedules.baselines(keys.items("measure")));
    draft.before.addAll(rules.rules(keys.items("rules"), "before"));
    keys.done();
  }

  private Optional<RecoveryDraft> recovery(Keys keys, Draft draft) {
    Optional<Duration> atMost = keys.needText("at_most").flatMap(texts::stretch);
    Optional<YamlNode> items = keys.need("stages");
    List<StageDraft> read =
        items
            .map(node -> stages.recoveryStages(Keys.itemsOf(node), atMost.orElse(Duration.ZERO)))
            .orElse(List.of());
    List<MeasureDraft> measure = schedules.lines(keys.items("measure"), draft);
    List<RuleDraft> recoveryRules = rules.rules(keys.items("rules"), "recovery");
    keys.done();
    return read.isEmpty()
        ? Optional.empty()
        : atMost.map(limit -> new RecoveryDraft(read, measure, recoveryRules, limit));
  }
}
