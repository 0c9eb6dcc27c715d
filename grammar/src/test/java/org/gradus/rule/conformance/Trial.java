package org.gradus.rule.conformance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.Resolution;
import org.gradus.rule.Rule;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/** Puts one case to the language. */
final class Trial {

  private static final Vocabulary NAMES = Names.vocabulary();

  private final Case given;
  private final Span text;
  private final Problems problems = new Problems();
  private final Layout.Builder layout = new Layout.Builder();
  private final Vocabulary vocabulary;

  private Trial(Case given) {
    this.given = given;
    this.text = Span.all("text", given.text());
    this.vocabulary = defined();
  }

  static void run(Case given) {
    Trial trial = new Trial(given);
    switch (given.ask()) {
      case VALUE -> trial.value();
      case CONDITION -> trial.condition();
      case RULE -> trial.rule();
      case QUANTITY ->
          trial.words(RuleText.quantity(trial.text, trial.problems).map(Quantity::toString));
      case RANGE -> trial.words(RuleText.range(trial.text, trial.problems).map(Object::toString));
      case SELECTION ->
          trial.words(RuleText.selection(trial.text, trial.problems).map(Wording::of));
      case CHOICE_LINE -> trial.choiceLine();
    }
  }

  private Vocabulary defined() {
    List<Definitions.Written> written = new ArrayList<>();
    given
        .define()
        .forEach(
            (name, node) -> {
              List<Definitions.Line> lines = new ArrayList<>();
              for (Object line : Yaml.list(node)) {
                lines.add(
                    line instanceof String plain
                        ? line(name, plain)
                        : line(name, Yaml.texts(line)));
              }
              written.add(new Definitions.Written(name, Span.all(name, name), lines));
            });
    return Definitions.check(written, NAMES, layout, problems);
  }

  private Definitions.Line line(String name, String value) {
    return new Definitions.Line("", List.of(), tree(name, value));
  }

  private Definitions.Line line(String name, Map<String, String> line) {
    String value = line.getOrDefault("value", "none");
    List<Expression> when = new ArrayList<>();
    line.forEach(
        (key, condition) -> {
          if (key.startsWith("when")) {
            tree(name, condition).ifPresent(when::add);
          }
        });
    return new Definitions.Line(
        line.getOrDefault("label", ""),
        when,
        value.equals("none") ? Optional.empty() : tree(name, value));
  }

  private Optional<Expression> tree(String name, String value) {
    return RuleText.expression(Span.all(name, value), problems);
  }

  private void value() {
    Optional<Formula> made =
        RuleText.expression(text, problems)
            .flatMap(
                tree ->
                    Formula.of(tree, Arrays.asList(Kind.values()), vocabulary, layout, problems));
    if (isSound(made)) {
      Formula formula = made.orElseThrow();
      Frame frame = Moment.of(layout.build(), given);
      checkValue(formula, frame);
      checkReasons(formula.gaps(frame));
      assertThat(formula.filled(frame).toString()).isNotEmpty();
    }
  }

  private void checkValue(Formula formula, Frame frame) {
    double value = formula.value(frame);
    Cell.Range range = formula.range(Resolution.around(frame));
    if (given.expected().is().isEmpty()) {
      assertThat(value).isNaN();
      assertThat(range.presence()).isNotEqualTo(Presence.KNOWN);
      return;
    }
    Quantity expected = Names.quantity(given.expected().is().orElseThrow());
    assertThat(formula.kind()).isEqualTo(expected.kind());
    double tolerance =
        given
            .expected()
            .within()
            .map(Names::quantity)
            .map(far -> far.unit() == expected.unit() ? far.base() : Double.NaN)
            .orElse(1e-12 * Math.abs(expected.base()));
    assertThat(value).isEqualTo(expected.base(), within(tolerance));
    // Looked at over a range of one point, the same comes out.
    assertThat(value).isBetween(range.low(), range.high());
    assertThat(range.presence()).isNotEqualTo(Presence.UNKNOWN);
  }

  private void condition() {
    Optional<Condition> made =
        RuleText.expression(text, problems)
            .flatMap(tree -> Condition.of(tree, vocabulary, layout, problems));
    if (isSound(made)) {
      check(made.orElseThrow());
    }
  }

  private void check(Condition condition) {
    Frame frame = Moment.of(layout.build(), given);
    Truth expected =
        given.expected().is().isEmpty()
            ? Truth.UNKNOWN
            : given.expected().is().orElseThrow().equals("yes") ? Truth.TRUE : Truth.FALSE;
    assertThat(condition.test(frame)).isEqualTo(expected);
    checkReasons(condition.gaps(frame));
    assertThat(condition.filled(frame).toString()).isNotEmpty();
    Outcomes outcomes = condition.outcomes(Resolution.around(frame));
    assertThat(
            switch (expected) {
              case TRUE -> outcomes.canHold();
              case FALSE -> outcomes.canFail();
              case UNKNOWN -> outcomes.canBeUnknown();
            })
        .isTrue();
  }

  private void rule() {
    Optional<Rule> made =
        RuleText.sentence(text, problems)
            .flatMap(sentence -> Rule.of(sentence, vocabulary, layout, problems));
    if (isSound(made)) {
      Rule rule = made.orElseThrow();
      given.expected().does().ifPresent(does -> assertThat(Wording.of(rule)).isEqualTo(does));
      boolean asked = given.expected().is().isPresent() || !given.expected().unknown().isEmpty();
      if (asked && rule.condition().isPresent()) {
        check(rule.condition().get());
      } else if (asked) {
        assertThat(rule.test(Moment.of(layout.build(), given))).isEqualTo(Truth.TRUE);
      }
    }
  }

  private void choiceLine() {
    words(
        RuleText.choiceLine(text, problems)
            .map(
                line ->
                    line.name().text()
                        + line.when().map(when -> " if " + when.span().text()).orElse(", always")));
  }

  private void words(Optional<String> understood) {
    if (isSound(understood)) {
      assertThat(understood).isEqualTo(given.expected().does());
    }
  }

  // Either there is a result and no error is expected, or the errors are those that are.
  private boolean isSound(Optional<?> result) {
    assertThat(problems.sorted().stream().map(Wording::of))
        .containsExactlyElementsOf(given.expected().errors());
    assertThat(result.isPresent()).isEqualTo(given.expected().errors().isEmpty());
    return result.isPresent();
  }

  private void checkReasons(List<Gap> gaps) {
    List<Gap> expected = new ArrayList<>();
    given
        .expected()
        .unknown()
        .forEach(
            (subject, reasons) ->
                reasons.forEach(reason -> expected.add(Moment.gap(subject, reason))));
    assertThat(gaps).containsExactlyElementsOf(expected);
    assertThat(given.expected().is().isPresent()).isEqualTo(expected.isEmpty());
  }
}
