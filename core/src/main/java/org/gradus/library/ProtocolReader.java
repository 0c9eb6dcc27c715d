package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.library.Draft.Include;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.protocol.Unmeasured;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Quantity;

/** Reads what only protocols have, on top of what {@link SetReader} reads. */
final class ProtocolReader {

  private static final List<String> ERGOMETERS =
      List.of("treadmill", "leg-cycle", "arm-crank", "step", "track", "floor");
  private static final List<String> PURPOSES = List.of("submaximal", "maximal");

  private final Problems problems;
  private final Texts texts;
  private final SetReader sets;

  ProtocolReader(Texts texts) {
    this.texts = texts;
    this.problems = texts.problems();
    this.sets = new SetReader(texts);
  }

  void read(Keys keys, Draft draft) {
    draft.ergometer = oneOf(keys.needText("ergometer"), ERGOMETERS);
    draft.purpose = oneOf(keys.needText("purpose"), PURPOSES);
    keys.items("include").forEach(item -> include(item).ifPresent(draft.includes::add));
    draft.maxHeartRate.addAll(choices(keys.texts("max_heart_rate")));
    sets.read(keys, draft);
    draft.stages.addAll(sets.stages().stages(keys.items("stages")));
    keys.texts("cost").stream()
        .filter(text -> !text.value().equals("none"))
        .forEach(text -> RuleText.choiceLine(text.span(), problems).ifPresent(draft.cost::add));
    draft.stageEnd.addAll(sets.rules().rules(keys.items("stage_end"), "stage_end"));
    draft.unmeasured = keys.keys("unmeasured", "unmeasured").flatMap(this::unmeasured);
    for (YamlNode item : keys.items("estimates")) {
      Keys.of(item, "an estimate", problems)
          .flatMap(this::estimate)
          .ifPresent(draft.estimates::add);
    }
    keys.texts("cautions").forEach(text -> draft.cautions.add(text.value().strip()));
  }

  private String oneOf(Optional<Scalar> text, List<String> words) {
    return text.flatMap(word -> texts.word(word, words, w -> w)).orElse("");
  }

  private Optional<Include> include(YamlNode item) {
    if (item instanceof Scalar id) {
      return Optional.of(new Include(id.span(), id.value(), List.of()));
    }
    return Keys.of(item, "an include", problems)
        .flatMap(
            keys -> {
              Optional<Scalar> use = keys.needText("use");
              List<Placed<String>> without = new ArrayList<>();
              keys.texts("without")
                  .forEach(rule -> without.add(new Placed<>(rule.span(), rule.value())));
              keys.done();
              return use.map(id -> new Include(id.span(), id.value(), without));
            });
  }

  private List<ChoiceLine> choices(List<Scalar> lines) {
    List<ChoiceLine> choices = new ArrayList<>();
    lines.forEach(line -> RuleText.choiceLine(line.span(), problems).ifPresent(choices::add));
    return choices;
  }

  private Optional<Unmeasured> unmeasured(Keys keys) {
    Optional<Duration> wait = keys.needText("wait").flatMap(texts::time);
    String then = oneOf(keys.text("then"), List.of("finish", "stop"));
    keys.done();
    return wait.map(time -> new Unmeasured(time, then.equals("stop")));
  }

  private Optional<EstimateDraft> estimate(Keys keys) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Selection> from =
        keys.needText("from").flatMap(text -> RuleText.selection(text.span(), problems));
    Optional<Expression> onlyWhen = keys.text("only_when").flatMap(texts::expression);
    Map<String, Placed<Expression>> locals = new LinkedHashMap<>();
    for (Entry entry : keys.entries("where")) {
      if (texts.isName(entry.key()) && entry.value() instanceof Scalar text) {
        texts
            .expression(text)
            .ifPresent(
                body -> locals.put(entry.key().value(), new Placed<>(entry.key().span(), body)));
      }
    }
    Optional<Expression> vo2max = keys.needText("vo2max").flatMap(texts::expression);
    Optional<PublishedError> error = keys.keys("error", "error").flatMap(this::error);
    Citation source =
        RuleReader.withNote(texts.source(keys.text("source")), Texts.string(keys.text("note")));
    List<String> cautions = keys.texts("cautions").stream().map(Scalar::value).toList();
    keys.done();
    if (id.isEmpty() || from.isEmpty() || vo2max.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new EstimateDraft(
            id.get().value(),
            id.get().span(),
            from.get(),
            onlyWhen,
            locals,
            vo2max.get(),
            error,
            source,
            cautions));
  }

  private Optional<PublishedError> error(Keys keys) {
    Optional<Quantity> sd = keys.needText("sd").flatMap(texts::quantity);
    String covers = oneOf(keys.needText("covers"), List.of("method", "inputs"));
    Citation source = texts.source(keys.text("source"));
    String note = Texts.string(keys.text("note"));
    keys.done();
    return sd.map(quantity -> new PublishedError(quantity, covers, source, note));
  }
}
