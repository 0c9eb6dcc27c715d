package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertTimeoutPreemptively;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.RuleText;
import org.junit.jupiter.api.Test;

/** However a text is built, the work it makes stays small. */
class EffortTest {

  private static final Duration SOON = Duration.ofSeconds(3);

  private final World world = new World();
  private final Problems problems = new Problems();

  @Test
  void aLongRowOfConditionsIsSurveyedInOneWalk() {
    String row =
        IntStream.range(0, 90)
            .mapToObj(i -> "(heart_rate > " + i + " bpm or rpe < 3)")
            .collect(Collectors.joining(" and "));
    assertThat(surveyed(row)).isEqualTo(new Outcomes(true, true, true));
  }

  @Test
  void aLongLadderOfChoicesIsSurveyedInOneWalk() {
    String ladder =
        IntStream.range(0, 80)
            .mapToObj(i -> "if rpe > " + i + " then load else ")
            .collect(Collectors.joining("", "(", "load * 2) > 10 W"));
    assertThat(surveyed(ladder)).isEqualTo(new Outcomes(true, true, true));
  }

  @Test
  void conditionsInsideValuesInsideConditionsAreSurveyedUpToALimit() {
    String nest = "rpe";
    for (int i = 0; i < 22; i++) {
      nest = "(if " + nest + " > 1 and heart_rate > " + i + " bpm then load in W else rpe)";
    }
    assertThat(surveyed(nest + " > 1")).isEqualTo(new Outcomes(true, true, true));
  }

  private Outcomes surveyed(String text) {
    Condition condition = condition(text, world.vocabulary());
    Box box =
        Box.of(
            world.layout.build(),
            (slot, demand) -> Box.anything(demand.type()).with(Presence.MAYBE));
    return assertTimeoutPreemptively(
        SOON,
        () -> {
          condition.whereItHolds(box);
          condition.whereItFails(box);
          condition.undecided(box);
          return condition.outcomes(box);
        });
  }

  private Condition condition(String text, Vocabulary vocabulary) {
    return RuleText.expression(Span.all("test", text), problems)
        .flatMap(tree -> Condition.of(tree, vocabulary, world.layout, problems))
        .orElseThrow(() -> new AssertionError(problems.sorted().toString()));
  }

  @Test
  void definitionsThatDoubleAtEachStepAreRefused() {
    List<Definitions.Written> doubling = new ArrayList<>(List.of(written("d0", "rpe")));
    for (int i = 1; i < 90; i++) {
      doubling.add(written("d" + i, "d%d + d%d".formatted(i - 1, i - 1)));
    }
    check(doubling);
    assertThat(problems.sorted())
        .extracting(Diagnostic::message)
        .first()
        .asString()
        .startsWith("this text has 16381 parts with its definitions written out; at most 10000");
  }

  @Test
  void aChainOfDefinitionsMayBeOneHundredLongInAnyOrder() {
    Vocabulary vocabulary = check(chain(100));
    assertThat(problems.sorted()).isEmpty();
    Condition last = condition("c99 > 1", vocabulary);
    Layout layout = world.layout.build();
    assertThat(last.test(new Readings(layout, Map.of()).frame())).isEqualTo(Truth.UNKNOWN);
    List<Definitions.Written> backwards = chain(100);
    Collections.reverse(backwards);
    check(backwards);
    assertThat(problems.sorted()).isEmpty();
  }

  @Test
  void aLongerOneIsRefusedInEitherOrder() {
    List<Definitions.Written> chain = chain(5000);
    assertTimeoutPreemptively(SOON, () -> check(chain));
    assertThat(problems.sorted()).isNotEmpty();
    int before = problems.count();
    Collections.reverse(chain);
    assertTimeoutPreemptively(SOON, () -> check(chain));
    assertThat(problems.count()).isGreaterThan(before);
  }

  private Vocabulary check(List<Definitions.Written> definitions) {
    return Definitions.check(definitions, world.vocabulary(), world.layout, problems);
  }

  private List<Definitions.Written> chain(int length) {
    return IntStream.range(0, length)
        .mapToObj(i -> written("c" + i, i == 0 ? "rpe" : "c" + (i - 1) + " + 1"))
        .collect(Collectors.toCollection(ArrayList::new));
  }

  private Definitions.Written written(String name, String text) {
    Definitions.Line line =
        new Definitions.Line(
            "",
            List.of(),
            Optional.of(RuleText.expression(Span.all("test", text), problems).orElseThrow()));
    return new Definitions.Written(name, Span.all("test", name), List.of(line));
  }
}
