package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is wrong never becomes a rule, and is said once. */
class FaultyTest {

  private final Problems problems = new Problems();
  private final Layout.Builder layout = new Layout.Builder();
  private final Vocabulary names =
      Vocabulary.of(
          Map.of("rpe", new Symbol.Datum(Demand.value("rpe", Type.NUMBER), Symbol.Role.SIGNAL)));

  private Definitions.Written written(String name, String... values) {
    List<Definitions.Line> lines =
        List.of(values).stream()
            .map(
                value ->
                    new Definitions.Line(
                        "", List.of(), value.equals("none") ? Optional.empty() : tree(value)))
            .toList();
    return new Definitions.Written(name, Span.all("test", name), lines);
  }

  private Optional<Expression> tree(String text) {
    return RuleText.expression(Span.all("test", text), problems);
  }

  private Optional<Rule> rule(Span text, Vocabulary vocabulary) {
    return RuleText.sentence(text, problems)
        .flatMap(sentence -> Rule.of(sentence, vocabulary, layout, problems));
  }

  private List<String> messages() {
    return problems.sorted().stream().map(Diagnostic::message).toList();
  }

  @Test
  void aRuleThatIsLookedAtAgainIsStillWrong() {
    Span text = Span.all("test", "finish when rpee > 3");
    assertThat(rule(text, names)).isEmpty();
    assertThat(rule(text, names)).isEmpty();
    assertThat(messages()).containsExactly("rpee is not known here");
  }

  @Test
  void aTextThatIsReadAgainIsStillWrong() {
    Span text = Span.all("test", "finish when rpe > 3 bmp");
    assertThat(RuleText.sentence(text, problems)).isEmpty();
    assertThat(RuleText.sentence(text, problems)).isEmpty();
    assertThat(problems.sorted()).hasSize(1);
  }

  @Test
  void aRuleOnAFaultyDefinitionIsNoRuleAndSaysNothingMore() {
    Vocabulary vocabulary =
        Definitions.check(
            List.of(written("hard", "rpee > 3"), written("very_hard", "hard and rpe > 4")),
            names,
            layout,
            problems);
    assertThat(rule(Span.all("test", "finish when very_hard"), vocabulary)).isEmpty();
    assertThat(messages()).containsExactly("rpee is not known here");
  }

  @Test
  void aDefinitionWithoutAnyValueIsRefused() {
    Vocabulary vocabulary =
        Definitions.check(List.of(written("limit", "none")), names, layout, problems);
    assertThat(rule(Span.all("test", "finish when limit > 3"), vocabulary)).isEmpty();
    assertThat(messages()).containsExactly("limit has no value");
  }

  @Test
  void aCircleIsNamedOnce() {
    Definitions.check(
        List.of(
            written("a", "b + 1"), written("b", "c + 1"), written("c", "a + 1"), written("d", "a")),
        names,
        layout,
        problems);
    assertThat(messages()).containsExactly("a is defined in terms of itself");
    assertThat(problems.sorted().get(0).help()).isEqualTo("break the circle: a -> b -> c -> a");
  }

  @Test
  void alternativesMustBeOfOneKind() {
    Definitions.check(List.of(written("a", "rpe", "3 bpm", "none")), names, layout, problems);
    assertThat(messages()).containsExactly("one branch is a plain number, the other a heart rate");
  }

  @ParameterizedTest
  @ValueSource(strings = {"first 0 stages", "usable stages, at least 0", "last 99999999999 stages"})
  void aSelectionNeedsASensibleNumberOfStages(String text) {
    assertThat(RuleText.selection(Span.all("test", text), problems)).isEmpty();
    assertThat(problems.sorted()).hasSize(1);
  }

  @ParameterizedTest
  @ValueSource(strings = {"0 min", "-1 min", "0.0001 s", "1 bpm", "rpe", "nothing"})
  void aHoldNeedsATimeAboveZero(String time) {
    Span text = Span.all("test", "hold " + time + " at most 2 times");
    assertThat(rule(text, names)).isEmpty();
    assertThat(messages())
        .containsExactly("hold needs a time above zero that is fixed when the file is read");
  }

  @Test
  void helpNamesAUnitOfTheSideThatHasOne() {
    assertThat(rule(Span.all("test", "finish when rpe > 3 mmHg"), names)).isEmpty();
    assertThat(problems.sorted().get(0).help())
        .isEqualTo("give both sides in units of one kind, such as mmHg");
  }
}
