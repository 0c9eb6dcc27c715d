package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.function.BiFunction;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.Resolution;
import org.gradus.rule.Rule;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;

/**
 * Takes a text through everything the language can do with it. It is refused with places inside it,
 * or comes to an answer that can be explained; anything else is thrown.
 *
 * <p>Texts behind form feeds are definitions that it may use: the first of them is {@code term_1}.
 */
final class Gauntlet {

  private final World world = new World();
  private final Layout.Builder layout = world.layout;
  private final Vocabulary vocabulary;
  private final String text;
  private final Random random;

  private Gauntlet(String[] texts) {
    this.text = texts[0];
    this.random = new Random(text.hashCode());
    List<Definitions.Written> definitions = new ArrayList<>();
    for (int i = 1; i < texts.length; i++) {
      Span where = Span.all("term", texts[i]);
      Optional<Expression> value = RuleText.expression(where, world.problems);
      Definitions.Line line = new Definitions.Line("", List.of(), value);
      definitions.add(new Definitions.Written("term_" + i, where, List.of(line)));
    }
    this.vocabulary = Definitions.check(definitions, world.vocabulary(), layout, world.problems);
    world.problems.sorted().forEach(Gauntlet::isWellSaid);
  }

  static void run(String text) {
    new Gauntlet(text.split("\f", 8)).run();
  }

  private void run() {
    takes(RuleText::quantity);
    takes(RuleText::range);
    takes(RuleText::selection);
    takes(RuleText::choiceLine);
    takes(
            (span, problems) ->
                RuleText.expression(span, problems)
                    .flatMap(tree -> Condition.of(tree, vocabulary, layout, problems)))
        .ifPresent(this::answers);
    takes(
            (span, problems) ->
                RuleText.expression(span, problems)
                    .flatMap(
                        tree ->
                            Formula.of(tree, List.of(Kind.values()), vocabulary, layout, problems)))
        .ifPresent(this::answers);
    takes(
            (span, problems) ->
                RuleText.sentence(span, problems)
                    .flatMap(sentence -> Rule.of(sentence, vocabulary, layout, problems)))
        .flatMap(Rule::condition)
        .ifPresent(this::answers);
  }

  private <T> Optional<T> takes(BiFunction<Span, Problems, Optional<T>> reader) {
    Problems problems = new Problems();
    Optional<T> read = reader.apply(Span.all("text", text), problems);
    // What rests on a faulty definition is passed over without a word.
    if (world.problems.isEmpty()) {
      assertThat(read.isPresent()).as(text).isEqualTo(problems.isEmpty());
    }
    problems.sorted().forEach(Gauntlet::isWellSaid);
    return read;
  }

  private static void isWellSaid(Diagnostic problem) {
    for (Diagnostic.Label label : problem.labels()) {
      assertThat(label.where().start()).isBetween(0, label.where().end());
      assertThat(label.where().end()).isLessThanOrEqualTo(label.where().file().text().length());
    }
    assertThat(problem.toString()).startsWith("error[G").doesNotContain("{0}");
  }

  private void answers(Condition condition) {
    Layout slots = layout.build();
    Frame frame = Readings.random(slots, random).frame();
    Truth truth = condition.test(frame);
    assertThat(condition.gaps(frame).isEmpty()).isEqualTo(truth.isKnown());
    assertThat(condition.filled(frame).toString()).isNotEmpty();
    Outcomes outcomes = condition.outcomes(Resolution.around(frame));
    assertThat(
            switch (truth) {
              case TRUE -> outcomes.canHold();
              case FALSE -> outcomes.canFail();
              case UNKNOWN -> outcomes.canBeUnknown();
            })
        .isTrue();
    Box box = Boxes.random(slots, random);
    condition.undecided(box);
    condition.outcomes(condition.whereItHolds(box));
    condition.outcomes(condition.whereItFails(box));
    condition.test(new Readings(slots, Map.of()).frame());
  }

  private void answers(Formula formula) {
    Layout slots = layout.build();
    Frame frame = Readings.random(slots, random).frame();
    double value = formula.value(frame);
    assertThat(Double.isInfinite(value)).isFalse();
    assertThat(formula.gaps(frame).isEmpty()).isEqualTo(!Double.isNaN(value));
    assertThat(formula.filled(frame).toString()).isNotEmpty();
    assertThat(formula.range(Resolution.around(frame)))
        .matches(
            range ->
                Double.isNaN(value)
                    ? range.presence() != Presence.KNOWN
                    : range.low() <= value && value <= range.high());
    formula.range(Boxes.random(slots, random));
  }
}
