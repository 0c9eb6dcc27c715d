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

/** Reads what only protocols have, on top of what {@link SetReader} reads. */
final class ProtocolReader {

  private static final List<String> PURPOSES = List.of("submaximal", "maximal");

  private final Problems problems;
  private final Texts texts;
  private final RuleReader rules;
  private final SetReader sets;

  ProtocolReader(Texts texts) {
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
        () -> draft.stages.addAll(new StageReader(texts, rules).stages(keys.items("stages"))));
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
    Optional<Expression> vo2max = keys.needText("vo2max").flatMap(texts::expression);
    Optional<Expression> leastSpan = keys.text("least_span").flatMap(texts::expression);
    Optional<Scalar> model = keys.text("model");
    Optional<PublishedError> error = keys.keys("error", "error").flatMap(this::error);
    Citation source = texts.source(keys);
    String assumes = Texts.string(keys.text("assumes"));
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
            faulty,
            vo2max.get(),
            leastSpan,
            model,
            error,
            source,
            assumes,
            cautions));
  }

  private Optional<PublishedError> error(Keys keys) {
    Optional<Quantity> sd =
        keys.needText("sd")
            .flatMap(
                text ->
                    texts.spread(text, List.of(Kind.UPTAKE, Kind.ABSOLUTE_UPTAKE, Kind.NUMBER)));
    Covers covers =
        oneOf(keys.needText("covers"), List.of("method", "inputs")).equals("inputs")
            ? Covers.INPUTS
            : Covers.METHOD;
    Citation source = texts.source(keys.text("source"));
    String note = Texts.string(keys.text("note"));
    keys.done();
    return sd.map(quantity -> new PublishedError(quantity, covers, source, note));
  }
}
