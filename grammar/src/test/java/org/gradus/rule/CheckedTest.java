package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.bounds.Presence;
import org.gradus.rule.check.Definitions;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** One fault gives one message at its place; what is sound keeps its meaning on every way. */
class CheckedTest {

  private final Bench bench = new Bench();

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "heart_rate between 100 bpm and 150 mmHg | G204 | 42 | a heart rate",
        "heart_rate between 100 mmHg and 150 bpm | G204 | 30 | a pressure",
        "(if cleared then sex else sex) is male | G208 | 28 | a choice of female, male",
        "heart_rate is male | G213 | 11 | a choice",
        "heart_rate of rpe > 3 bpm | G210 | 11 | a heart rate",
        "hart_rate of rpe > 3 bpm | G201 | 11 | did you mean heart_rate?",
        "heart_rate ^ 2 > 3 | G210 | 11 | a power",
        "2 ^ heart_rate > 3 | G210 | 15 | an exponent",
        "ever(rpe) | G213 | 16 | a sign",
        "extrapolate(rpe + 1, heart_rate, 100 bpm) > 3 | G213 | 23 | a value of each stage",
        "extrapolate(rpe, heart_rate, 100) > 3 | G204 | 40 | a plain number",
        "change(heart_rate, 5 bpm) > 5 bpm | G214 | 30 | a time above zero",
        "change(heart_rate, 0 s) > 5 bpm | G214 | 30 | a time above zero",
        "count(heart_rate) > 2 | G213 | 17 | a condition",
        "count(level) > 2 | G213 | 17 | a condition",
        "completed(walk_9) | G213 | 21 | a stage",
        "completed(1 + 2) | G213 | 21 | a stage",
        "load_for(walking, speed + 1 mph, uptake) > 3 mph | G211 | 29 | speed, grade",
        "load_for(walking, mass, uptake) > 3 kg | G211 | 29 | speed, grade",
        "load_for(bent, grade, uptake) > 3 | G305 | 26 | no straight line",
        "abs(1, 2) > 1 | G212 | 11 | abs(x)",
        "root(4) > 1 | G203 | 11 | the functions are abs, ln, exp",
        "hart_rate > 100 bpm | G201 | 11 | did you mean heart_rate?",
        "sex | G207 | 11 | a choice of female, male",
      })
  void oneFaultIsSaidOnce(String condition, String code, int column, String says) {
    bench.define("level", "rpe * 2");
    String refusal = bench.refusal("stop when " + condition);
    assertThat(refusal).startsWith("error[" + code + "] test:1:" + column + ":").contains(says);
    assertThat(refusal.split("error\\[", -1)).as(refusal).hasSize(2);
  }

  @Test
  void aNameThatIsFaultyIsNotFaultyAgain() {
    bench.define("bad", "nope > 1");
    assertThat(bench.problems.count()).isEqualTo(1);
    for (String use : List.of("count(bad) > 1", "ever(bad)", "change(heart_rate, bad) > 5 bpm")) {
      assertThat(bench.refusal("stop when " + use)).isEqualTo("nothing");
    }
  }

  @Test
  void aValueOfAnotherKindIsRefusedWithTheKindThatIsWanted() {
    Problems problems = new Problems();
    assertThat(
            RuleText.expression(Bench.text("5 bpm"), problems)
                .flatMap(
                    tree ->
                        Formula.of(
                            tree,
                            List.of(Kind.TIME),
                            Vocabulary.empty(),
                            new Layout.Builder(),
                            problems)))
        .isEmpty();
    assertThat(problems.sorted().toString()).contains("error[G305]", "a heart rate", "a time");
  }

  @Test
  void aDefinitionIsAValueOrACondition() {
    bench.define("which", "sex");
    assertThat(bench.problems.sorted().toString()).contains("error[G208]", "define a condition");
  }

  @Test
  void theOrderOfDefinitionsDoesNotMatterForTheirConditionsEither() {
    Definitions.Line first = line(List.of("late"), "1");
    Definitions.Line other = line(List.of(), "2");
    Definitions.Written early =
        new Definitions.Written("early", Bench.text("early"), List.of(first, other));
    Definitions.Written late =
        new Definitions.Written("late", Bench.text("late"), List.of(line(List.of(), "rpe > 3")));
    Problems problems = new Problems();
    Map<String, Symbol> names =
        Map.of("rpe", new Symbol.Datum(Demand.value("rpe", Type.NUMBER), Symbol.Role.FACT));
    Definitions.check(List.of(early, late), Vocabulary.of(names), new Layout.Builder(), problems);
    assertThat(problems.sorted()).isEmpty();
  }

  private Definitions.Line line(List<String> when, String value) {
    return new Definitions.Line(
        "",
        when.stream()
            .map(text -> RuleText.expression(Bench.text(text), bench.problems).orElseThrow())
            .toList(),
        RuleText.expression(Bench.text(value), bench.problems));
  }

  @Test
  void everyDefinitionKeepsItsOwnValue() {
    bench.define("hard", "rpe > 5").define("fast", "heart_rate > 150 bpm");
    bench.read("rpe", 7).read("heart_rate", 120);
    assertThat(bench.condition("hard and not fast").test(bench.frame())).isEqualTo(Truth.TRUE);
  }

  @Test
  void theConditionsOfAlternativesAreAskedForToo() {
    bench.choose("pace", "slow: 1 if rpe > 5", "quick: 2 if cleared", "other: none");
    assertThat(bench.condition("pace > 1").demands())
        .extracting(Demand::subject)
        .containsExactlyInAnyOrder("rpe", "cleared");
  }

  @Test
  void aPercentageIsExact() {
    bench.read("rpe", 100);
    assertThat(bench.formula("7 % of rpe", Kind.NUMBER).value(bench.frame())).isEqualTo(7);
  }

  @Test
  void whatIsOpenInAnAlternativeIsNamedOnItsWay() {
    bench.choose("pace", "slow: 1 if rpe > 5", "quick: 2 + (rpe - grade) if rpe - grade < 2");
    Condition condition = bench.condition("pace > 1");
    assertThat(condition.undecided(free()))
        .containsExactlyInAnyOrder("pace > 1", "rpe > 5", "rpe - grade < 2");
  }

  private Box free() {
    return Box.of(bench.layout.build(), (slot, demand) -> Box.anything(demand.type()));
  }

  private Outcomes outcomes(String text, Presence presence) {
    Condition condition = bench.condition(text);
    Box box =
        Box.of(bench.layout.build(), (slot, demand) -> Box.anything(demand.type()).with(presence));
    return condition.outcomes(box);
  }

  @ParameterizedTest
  @CsvSource({"sex", "cleared", "rpe", "rpe > 3"})
  void whetherSomethingIsKnownFollowsItsPresence(String subject) {
    String text = "known(" + subject + ")";
    assertThat(outcomes(text, Presence.KNOWN)).isEqualTo(new Outcomes(true, false, false));
    assertThat(outcomes(text, Presence.MAYBE)).isEqualTo(new Outcomes(true, true, false));
    assertThat(outcomes(text, Presence.UNKNOWN)).isEqualTo(new Outcomes(false, true, false));
  }

  @Test
  void aWordThatIsFixedIsAlwaysKnown() {
    assertThat(outcomes("known(end_rule)", Presence.UNKNOWN))
        .isEqualTo(new Outcomes(true, false, false));
  }

  @Test
  void whatIsNotThereHasNoAnswer() {
    assertThat(outcomes("cleared", Presence.UNKNOWN)).isEqualTo(new Outcomes(false, false, true));
    assertThat(outcomes("sex is male", Presence.UNKNOWN))
        .isEqualTo(new Outcomes(false, false, true));
  }

  @Test
  void oneOptionThatIsLeftIsTheAnswer() {
    Condition condition = bench.condition("cleared");
    for (boolean answer : new boolean[] {true, false}) {
      Box box = Box.of(bench.layout.build(), (slot, demand) -> Cell.condition(answer));
      assertThat(condition.outcomes(box)).isEqualTo(new Outcomes(answer, !answer, false));
    }
  }

  @Test
  void theLastOfSixtyFourWordsIsKnownForCertainAndOfSixtyFiveNot() {
    assertThat(lastOf(64)).isEqualTo(new Outcomes(true, false, false));
    assertThat(lastOf(65)).isEqualTo(new Outcomes(true, true, false));
  }

  private static Outcomes lastOf(int words) {
    List<String> options =
        java.util.stream.IntStream.range(0, words).mapToObj(i -> "word_" + i).toList();
    Vocabulary names =
        Vocabulary.of(
            Map.of(
                "which",
                new Symbol.Datum(
                    Demand.value("which", new Type.Choice(options)), Symbol.Role.FACT)));
    Layout.Builder layout = new Layout.Builder();
    Problems problems = new Problems();
    Span text = Bench.text("which is word_" + (words - 1));
    Optional<Condition> condition =
        RuleText.expression(text, problems)
            .flatMap(tree -> Condition.of(tree, names, layout, problems));
    Cell last = new Cell.Options(Cell.Options.bit(words - 1), Presence.KNOWN);
    return condition.orElseThrow().outcomes(Box.of(layout.build(), (slot, demand) -> last));
  }

  @Test
  void anAssumptionAboutZeroLeavesOnePoint() {
    Condition condition = bench.condition("rpe = 0");
    assertThat(condition.whereItHolds(free()).cell(0)).isEqualTo(Cell.between(-0.0, 0));
  }

  @Test
  void aBoundThatMayBeAnythingNarrowsNothing() {
    Condition condition = bench.condition("rpe < 1 / grade");
    Box box = Box.of(bench.layout.build(), (slot, demand) -> Cell.between(-3, 5));
    assertThat(condition.whereItHolds(box).cell(0)).isEqualTo(Cell.between(-3, 5));
  }
}
