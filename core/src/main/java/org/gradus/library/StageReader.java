package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.library.StageDraft.LoadDraft;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Unit;

/** Reads stages and their loads. */
final class StageReader {

  /** The components a load may have. */
  static final Map<String, Kind> LOADS = loads();

  private static Map<String, Kind> loads() {
    Map<String, Kind> loads = new LinkedHashMap<>();
    loads.put("speed", Kind.SPEED);
    loads.put("grade", Kind.NUMBER);
    loads.put("power", Kind.POWER);
    loads.put("pedal_rate", Kind.PEDAL_RATE);
    loads.put("step_height", Kind.LENGTH);
    loads.put("step_rate", Kind.STEP_RATE);
    return java.util.Collections.unmodifiableMap(loads);
  }

  private final Texts texts;
  private final RuleReader rules;

  StageReader(Texts texts, RuleReader rules) {
    this.texts = texts;
    this.rules = rules;
  }

  /** The stages of a test. */
  List<StageDraft> stages(List<YamlNode> items) {
    return read(items, Optional.empty());
  }

  /** The stages of a recovery; one that lasts {@code until_end} lasts to the limit. */
  List<StageDraft> recoveryStages(List<YamlNode> items, Duration limit) {
    return read(items, Optional.of(limit));
  }

  private List<StageDraft> read(List<YamlNode> items, Optional<Duration> limit) {
    List<StageDraft> stages = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a stage", texts.problems())
          .flatMap(keys -> stage(keys, limit))
          .ifPresent(stages::add);
    }
    return stages;
  }

  private Optional<StageDraft> stage(Keys keys, Optional<Duration> limit) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Duration> lasts = keys.needText("lasts").flatMap(text -> lasts(text, limit));
    List<LoadDraft> loads = new ArrayList<>();
    LOADS.forEach(
        (name, kind) ->
            keys.text(name).flatMap(text -> load(name, kind, text)).ifPresent(loads::add));
    keys.text("load").ifPresent(word -> texts.word(word, List.of("none"), w -> w));
    boolean warmUp = texts.yes(keys.text("warm_up"), false);
    Optional<List<RuleDraft>> own =
        keys.take("stage_end").map(node -> rules.rules(Keys.itemsOf(node), Texts.string(id)));
    keys.done();
    return id.isPresent() && lasts.isPresent()
        ? Optional.of(
            new StageDraft(id.get().value(), id.get().span(), lasts.get(), loads, warmUp, own))
        : Optional.empty();
  }

  private Optional<Duration> lasts(Scalar text, Optional<Duration> limit) {
    boolean untilEnd = limit.isPresent() && text.value().equals("until_end");
    return untilEnd ? limit : texts.stretch(text);
  }

  private Optional<LoadDraft> load(String name, Kind kind, Scalar text) {
    Optional<Expression> value = texts.expression(text);
    boolean bareShare =
        value.isPresent()
            && kind == Kind.NUMBER
            && value.get() instanceof Expression.Literal literal
            && literal.quantity().unit() != Unit.PERCENT;
    if (bareShare) {
      texts.notA(
          text,
          "a " + name + " in %",
          "write " + text.value().strip() + " %, or 100 times that if it was a fraction");
      return Optional.empty();
    }
    return value.map(expression -> new LoadDraft(name, kind, expression));
  }
}
