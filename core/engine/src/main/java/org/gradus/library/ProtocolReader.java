package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.knowledge.Citation;
import org.gradus.library.Draft.Include;
import org.gradus.library.EstimateDraft.ReferenceDraft;
import org.gradus.library.EstimateDraft.ShownDraft;
import org.gradus.library.YamlNode.Entry;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.protocol.EstimateLine.Covers;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.protocol.Unmeasured;
import org.gradus.rule.syntax.ChoiceLine;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.rule.syntax.Selection;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Reads what only protocols have, on top of what {@link SetReader} reads. */
final class ProtocolReader {

  private static final List<Kind> CAPACITY_ERRORS =
      List.of(Kind.UPTAKE, Kind.ABSOLUTE_UPTAKE, Kind.NUMBER);
  private static final List<String> PURPOSES = List.of("submaximal", "maximal");

  private final Problems problems;
  private final ScalarParser texts;
  private final RuleReader rules;
  private final SetReader sets;

  ProtocolReader(ScalarParser texts) {
    this.texts = texts;
    this.problems = texts.problems();
    this.rules = new RuleReader(texts, "");
    this.sets = new SetReader(texts, rules);
  }

  void read(Keys keys, Draft draft) {
    draft.ergometer =
        oneOf(keys.needText("ergometer"), List.copyOf(texts.equipment().ergometers().keySet()));
    draft.purpose = oneOf(keys.needText("purpose"), PURPOSES);
    sets.part("include", draft, () -> includes(keys, draft));
    sets.read(keys, draft);
    sets.part(
        "max_heart_rate",
        draft,
        () -> draft.maxHeartRate.addAll(choices(keys.texts("max_heart_rate"))));
    sets.part("cost", draft, () -> draft.cost.addAll(costs(keys.texts("cost"))));
    sets.part(
        "stages",
        draft,
        () ->
            draft.stages.addAll(new StageReader(texts, rules).stages(keys.items("stages"), draft)));
    sets.part(
        "stage_end",
        draft,
        () -> draft.stageEnd.addAll(rules.rules(keys.items("stage_end"), "stage_end")));
    sets.part("accept", draft, () -> new NotesReader(texts).accept(keys, draft));
    draft.unmeasured = keys.keys("unmeasured", "unmeasured").flatMap(this::unmeasured);
    for (YamlNode item : keys.items("estimates")) {
      Keys.of(item, "an estimate", problems)
          .flatMap(this::estimate)
          .ifPresent(draft.estimates::add);
    }
    sets.part(
        "results",
        draft,
        () -> {
          for (YamlNode item : keys.items("results")) {
            Keys.of(item, "a result", problems).flatMap(this::result).ifPresent(draft.results::add);
          }
        });
    draft.headline = keys.text("headline");
    keys.texts("cautions").forEach(text -> draft.cautions.add(text.value().strip()));
  }

  private void includes(Keys keys, Draft draft) {
    for (YamlNode item : keys.items("include")) {
      include(item).ifPresentOrElse(draft.includes::add, () -> draft.torn = true);
    }
  }

  private String oneOf(Optional<Scalar> text, List<String> words) {
    return text.flatMap(word -> texts.word(word, words, w -> w)).orElse("");
  }

  private Optional<Include> include(YamlNode item) {
    if (item instanceof Scalar id && !id.value().isBlank()) {
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
    for (Scalar line : lines) {
      Optional<ChoiceLine> read = RuleText.choiceLine(line.span(), problems);
      Optional<ChoiceLine> before =
          choices.isEmpty() ? Optional.empty() : Optional.of(choices.get(choices.size() - 1));
      if (read.isPresent() && before.filter(last -> last.when().isEmpty()).isPresent()) {
        problems.add(line.span(), Code.G402, before.get().name().text());
      } else {
        read.ifPresent(choices::add);
      }
    }
    return choices;
  }

  // The cost none says that nobody has forgotten it.
  private List<ChoiceLine> costs(List<Scalar> lines) {
    boolean none = lines.size() == 1 && lines.get(0).value().equals("none");
    return none ? List.of() : choices(lines);
  }

  private Optional<Unmeasured> unmeasured(Keys keys) {
    Optional<Duration> wait = keys.needText("wait").flatMap(texts::time);
    String then = oneOf(keys.text("then"), List.of("finish", "stop"));
    keys.done();
    return wait.map(time -> new Unmeasured(time, then.equals("stop")));
  }

  private Optional<EstimateDraft> estimate(Keys keys) {
    Optional<Scalar> model = keys.text("model");
    boolean secondLook = texts.yes(keys.text("second_look"), false);
    return worked(keys, "vo2max", CAPACITY_ERRORS, model, secondLook, Optional.empty());
  }

  private Optional<EstimateDraft> result(Keys keys) {
    String id = keys.peek("id").orElse("");
    String title = keys.text("title").map(Scalar::value).orElse(id.replace('_', ' '));
    Optional<Unit> unit = keys.needText("unit").flatMap(texts::unit);
    Optional<ReferenceDraft> reference =
        keys.keys("reference", "a reference").flatMap(this::reference);
    Optional<ShownDraft> shown = unit.map(of -> new ShownDraft(title, of, reference));
    List<Kind> errors =
        unit.map(of -> List.of(of.kind(), Kind.NUMBER)).orElse(List.of(Kind.values()));
    Optional<EstimateDraft> result = worked(keys, "value", errors, Optional.empty(), false, shown);
    return unit.isPresent() ? result : Optional.empty();
  }

  private Optional<ReferenceDraft> reference(Keys keys) {
    Optional<Expression> value = keys.needText("value").flatMap(texts::expression);
    Optional<Expression> lower = keys.text("lower").flatMap(texts::expression);
    Optional<Expression> upper = keys.text("upper").flatMap(texts::expression);
    Citation source = texts.neededSource(keys);
    keys.done();
    return value.map(expected -> new ReferenceDraft(expected, lower, upper, source));
  }

  private Optional<EstimateDraft> worked(
      Keys keys,
      String answer,
      List<Kind> errors,
      Optional<Scalar> model,
      boolean secondLook,
      Optional<ShownDraft> shown) {
    Optional<Scalar> id = keys.needText("id").filter(texts::isName);
    Optional<Selection> from =
        keys.needText("from").flatMap(text -> RuleText.selection(text.span(), problems));
    Optional<Expression> onlyWhen = keys.text("only_when").flatMap(texts::expression);
    Map<String, Placed<Expression>> locals = new LinkedHashMap<>();
    Set<String> faulty = new HashSet<>();
    for (Entry entry : keys.entries("where")) {
      String name = entry.key().value();
      Optional<Expression> body =
          texts.isName(entry.key())
              ? keys.scalar(entry.value(), name).flatMap(texts::expression)
              : Optional.empty();
      body.ifPresentOrElse(
          value -> locals.put(name, new Placed<>(entry.key().span(), value)),
          () -> faulty.add(name));
    }
    Optional<Expression> formula = keys.needText(answer).flatMap(texts::expression);
    Optional<Expression> leastSpan = keys.text("least_span").flatMap(texts::expression);
    Optional<PublishedError> error =
        keys.keys("error", "error").flatMap(inner -> error(inner, errors));
    Citation source = texts.source(keys);
    String assumes = ScalarParser.string(keys.text("assumes"));
    List<String> cautions = keys.texts("cautions").stream().map(Scalar::value).toList();
    keys.done();
    if (id.isEmpty() || from.isEmpty() || formula.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new EstimateDraft(
            id.get().value(),
            id.get().span(),
            from.get(),
            onlyWhen,
            locals,
            faulty,
            formula.get(),
            leastSpan,
            model,
            error,
            source,
            assumes,
            secondLook,
            cautions,
            shown));
  }

  private Optional<PublishedError> error(Keys keys, List<Kind> kinds) {
    Optional<Quantity> sd = keys.needText("sd").flatMap(text -> texts.spread(text, kinds));
    Covers covers =
        oneOf(keys.needText("covers"), List.of("method", "inputs")).equals("inputs")
            ? Covers.INPUTS
            : Covers.METHOD;
    Citation source = texts.source(keys.text("source"));
    String note = ScalarParser.string(keys.text("note"));
    keys.done();
    return sd.map(quantity -> new PublishedError(quantity, covers, source, note));
  }
}
