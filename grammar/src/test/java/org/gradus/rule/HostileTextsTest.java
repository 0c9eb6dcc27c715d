package org.gradus.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.SolvableEquation;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Texts that somebody means ill with: each is refused with one message, before any deep work. */
class HostileTextsTest {

  private final Bench bench = new Bench();

  static Stream<Arguments> tooMuch() {
    int many = 100_000;
    return Stream.of(
        Arguments.of("(".repeat(many), "words"),
        Arguments.of("(".repeat(400) + "rpe" + ")".repeat(400), "brackets"),
        Arguments.of("abs(".repeat(90) + "rpe" + ")".repeat(90), "brackets"),
        Arguments.of("not ".repeat(many), "words"),
        Arguments.of("not ".repeat(900) + "cleared", "words not, if, of and signs"),
        Arguments.of("-".repeat(900) + "rpe > 1", "signs"),
        Arguments.of("2 ^ ".repeat(300) + "2 > 1", "signs"),
        Arguments.of("1 of ".repeat(300) + "2 > 1", "signs"),
        Arguments.of("if cleared then ".repeat(300) + "cleared", "signs"),
        Arguments.of("rpe + ".repeat(many) + "1 > 1", "words"));
  }

  @ParameterizedTest
  @MethodSource("tooMuch")
  void deepOrLongTextsAreCountedBeforeTheyAreRead(String condition, String says) {
    String refusal = bench.refusal("stop when " + condition);
    assertThat(refusal).startsWith("error[G105]").contains(says);
    assertThat(refusal.length()).isLessThan(2000);
  }

  @ParameterizedTest
  @ValueSource(strings = {"9", "1234567890", "0.", "1."})
  void numbersOfManyDigitsAreNumbersOrRefused(String digits) {
    String many = digits + "7".repeat(200_000);
    String refusal = bench.refusal("stop when rpe > " + many);
    if (!refusal.equals("nothing")) {
      assertThat(refusal).startsWith("error[G106]");
      assertThat(refusal.length()).isLessThan(2000);
    }
    assertThat(bench.refusal("hold 1 min at most 99999999999 times")).startsWith("error[G106]");
  }

  @Test
  void aWordOfManyLettersIsShownInPart() {
    String refusal = bench.refusal("stop when rpe > 1 " + "x".repeat(300_000));
    assertThat(refusal).startsWith("error[G");
    assertThat(refusal.lines().skip(1).mapToInt(String::length).max().orElse(0)).isLessThan(600);
  }

  // The named look like letters, blanks or digits of the language, turn the direction of the line,
  // or are no characters at all.
  @ParameterizedTest
  @ValueSource(
      strings = {
        "heart_r\u0430te > 100 bpm", // a Cyrillic letter
        "rpe > \uFF11", // a fullwidth digit
        "rpe > \u0661", // an Arabic digit
        "rpe \u202E> 1", // right to left
        "rpe \u2066> 1",
        "rpe > 1 \u0000",
        "r\u200Bpe > 1", // a blank without width
        "rpe\u0301 > 1", // an accent for the letter before
        "rpe > 1\uD800", // half of a character
        "rpe \uFF1E 1",
        "\uFEFFrpe > 1",
        "rpe > 1\u2028",
        "chest_p\u0131in",
      })
  void lookAlikesAndHiddenCharactersAreNoPartOfTheLanguage(String condition) {
    String refusal = bench.refusal("stop when " + condition);
    assertThat(refusal).startsWith("error[G10");
    assertThat(refusal.chars())
        .allMatch(c -> c == '\n' || Character.getType(c) != Character.CONTROL)
        .noneMatch(c -> Character.getType(c) == Character.FORMAT);
  }

  @Test
  void anEquationThatSolvesItselfIsRefused() {
    Map<String, Symbol> names = new LinkedHashMap<>();
    names.put("load", datum("load", Kind.POWER));
    names.put("uptake", datum("uptake", Kind.UPTAKE));
    Problems problems = new Problems();
    String body =
        "(load in W) as mL/kg/min + 0 * ((load_for(own, load, uptake) in W) as mL/kg/min)";
    names.put(
        "own",
        new Symbol.Solvable(
            new SolvableEquation(
                "own",
                List.of("load"),
                RuleText.expression(Bench.text(body), problems).orElseThrow())));
    assertThat(refusals("load_for(own, load, uptake) > 3 W", names)).hasSize(1);
  }

  private static Symbol datum(String name, Kind kind) {
    return new Symbol.Datum(Demand.value(name, new Type.Measure(kind)), Symbol.Role.FACT);
  }

  private static List<Diagnostic> refusals(String text, Map<String, Symbol> names) {
    Problems problems = new Problems();
    Optional<Condition> condition =
        RuleText.expression(Bench.text(text), problems)
            .flatMap(
                tree -> Condition.of(tree, Vocabulary.of(names), new Layout.Builder(), problems));
    assertThat(condition.isPresent()).isEqualTo(problems.isEmpty());
    return problems.sorted();
  }

  @Test
  void whatIsSolvedForCountsWithItsEquation() {
    String body = "(3.5 + 0.1 * (speed in m/min) " + "+ 1 ".repeat(150) + ") as mL/kg/min";
    Map<String, Symbol> names = new LinkedHashMap<>();
    names.put("speed", datum("speed", Kind.SPEED));
    names.put("uptake", datum("uptake", Kind.UPTAKE));
    names.put(
        "long",
        new Symbol.Solvable(
            new SolvableEquation(
                "long",
                List.of("speed"),
                RuleText.expression(Bench.text(body), new Problems()).orElseThrow())));
    String solved = "load_for(long, speed, uptake)";
    assertThat(refusals(solved + " > 3 mph", names)).isEmpty();
    String many = (solved + " + ").repeat(40) + solved + " > 3 mph";
    assertThat(refusals(many, names)).singleElement().asString().contains("G105", "parts");
  }

  @Test
  void theTextsOfOneProtocolAreCountedTogether() {
    bench.define("d0", "rpe" + " + rpe".repeat(400));
    bench.define("d1", "d0 + d0 + d0 + d0 + d0 + d0 + d0 + d0 + d0 + d0");
    int taken = 0;
    while (bench.problems.isEmpty() && taken < 1000) {
      bench.define("use_" + taken++, "d1 > 1");
    }
    assertThat(taken).isBetween(50, 100);
    assertThat(bench.problems.sorted().toString()).contains("G105", "together");
  }
}
