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
    List<StageDraft> stages = new ArrayList<>();
    for (YamlNode item : items) {
      Keys.of(item, "a stage", texts.problems())
          .ifPresent(keys -> stages.add(stage(keys, stages.size() + 1)));
    }
    return stages;
  }

  private StageDraft stage(Keys keys, int number) {
    Optional<Duration> lasts = keys.needText("lasts").flatMap(texts::stretch);
    boolean warmUp = texts.yes(keys.text("warm_up"), false);
    String group = keys.peek("id").orElse("stage-" + number);
    Optional<List<RuleDraft>> own =
        keys.take("stage_end").map(node -> rules.rules(Keys.itemsOf(node), group));
    return stage(keys, lasts, warmUp, own);
  }

  /** The stages of a recovery; the last may last {@code until_end}, which is to the limit. */
  List<StageDraft> recoveryStages(List<YamlNode> items, Duration limit) {
    List<StageDraft> stages = new ArrayList<>();
    for (int i = 0; i < items.size(); i++) {
      boolean last = i == items.size() - 1;
      Keys.of(items.get(i), "a stage of recovery", texts.problems())
          .ifPresent(
              keys -> {
                Optional<Duration> lasts =
                    keys.needText("lasts").flatMap(text -> lasts(text, last, limit));
                stages.add(stage(keys, lasts, false, Optional.empty()));
              });
    }
    return stages;
  }

  private Optional<Duration> lasts(Scalar text, boolean last, Duration limit) {
    if (!text.value().equals("until_end")) {
      return texts.stretch(text);
    }
    if (!last) {
      texts.notA(text, "a time", "only the last stage lasts until the end");
    }
    return Optional.of(limit);
  }

  // What is wrong has been noted; the stage is kept, so that rules may mention it.
  private StageDraft stage(
      Keys keys, Optional<Duration> lasts, boolean warmUp, Optional<List<RuleDraft>> own) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    List<LoadDraft> loads = new ArrayList<>();
    LOADS.forEach(
        (name, kind) ->
            keys.text(name).flatMap(text -> load(name, kind, text)).ifPresent(loads::add));
    keys.text("load").ifPresent(word -> texts.word(word, List.of("none"), w -> w));
    keys.done();
    if (!loads.isEmpty()) {
      keys.idle("load", "a stage with a " + loads.get(0).name(), "leave one of them out");
    }
    return new StageDraft(
        Texts.string(id),
        id.map(Scalar::span).orElse(keys.start()),
        lasts.orElse(Duration.ofMinutes(1)),
        loads,
        warmUp,
        own);
  }

  private Optional<LoadDraft> load(String name, Kind kind, Scalar text) {
    Optional<Expression> value = texts.expression(text);
    if (kind == Kind.NUMBER && value.filter(StageReader::isBareShare).isPresent()) {
      texts.notA(
          text,
          "a " + name + " in %",
          "write " + text.value().strip() + " %, or 100 times that if it was a fraction");
      return Optional.empty();
    }
    return value.map(expression -> new LoadDraft(name, kind, expression));
  }

  // Whether it comes to a number that is written without a %, which could be meant either way.
  private static boolean isBareShare(Expression value) {
    if (value instanceof Expression.Literal literal) {
      return literal.quantity().kind() == Kind.NUMBER && literal.quantity().unit() != Unit.PERCENT;
    } else if (value instanceof Expression.Negation negation) {
      return isBareShare(negation.operand());
    } else if (value instanceof Expression.Choice choice) {
      return isBareShare(choice.whenTrue()) || isBareShare(choice.whenFalse());
    }
    return false;
  }
}
