package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.BiFunction;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.antlr.v4.runtime.Vocabulary;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.rule.Condition;
import org.gradus.rule.Formula;
import org.gradus.rule.Rule;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Layout;
import org.gradus.rule.syntax.GradusLexer;
import org.gradus.rule.syntax.RuleText;
import org.gradus.unit.Kind;

/** Whatever is given as a text, the answer is a rule or a diagnostic, and soon. */
class SoupTest {

  private static final Duration SOON = Duration.ofSeconds(3);

  private static final List<String> WORDS = words();

  // Every literal of the grammar and every function, and what no text should contain.
  private static List<String> words() {
    List<String> words = new ArrayList<>();
    Vocabulary grammar = GradusLexer.VOCABULARY;
    for (int token = 1; token <= grammar.getMaxTokenType(); token++) {
      Optional.ofNullable(grammar.getLiteralName(token))
          .ifPresent(literal -> words.add(literal.substring(1, literal.length() - 1)));
    }
    for (Function function : Function.values()) {
      words.add(function.word());
    }
    words.addAll(
        List.of(
            ("1 2 0 10 1.5 2:30 1:02:30 99999999999999999999 ≤ ≠ − × ÷"
                    + " mL/kg/min km/h kg bpm min mph mmHg steps/min heart_rate systolic rpe sex gait"
                    + " male running cleared chest_pain speed mass resting.heart_rate pause end_rule"
                    + " : ; # & | ! \" ' \\ { } [ ] ~ @ é 心 😀 \u0000 \u200B \u2028"
                    + " \uD800 \uDC00 == 1. .5 2:75 mL/kg hart_rate bmp _x x_ İ")
                .split(" ")));
    return words;
  }

  @Provide
  Arbitrary<String> soups() {
    return Arbitraries.randomValue(
        random -> soup(random, random.nextInt(50) == 0 ? 1500 : 1 + random.nextInt(25)));
  }

  private static String soup(Random random, int length) {
    StringBuilder soup = new StringBuilder();
    for (int i = 0; i < length; i++) {
      soup.append(WORDS.get(random.nextInt(WORDS.size())));
      soup.append(random.nextInt(12) == 0 ? "" : random.nextInt(12) == 0 ? "\r\n\t" : " ");
    }
    return soup.toString();
  }

  // A good text with a few slips gets deeper than a soup.
  @Provide
  Arbitrary<String> slips() {
    return Sample.samples(Grower.Bed.EVERYTHING)
        .map(
            sample -> {
              List<String> words =
                  new ArrayList<>(Arrays.asList(Printer.text(sample.tree).split("(?<=[ (),])")));
              for (int i = sample.random.nextInt(3); i >= 0; i--) {
                int at = sample.random.nextInt(words.size());
                switch (sample.random.nextInt(4)) {
                  case 0 -> words.set(at, "");
                  case 1 -> words.set(at, soup(sample.random, 1));
                  case 2 -> words.add(at, soup(sample.random, 1));
                  default -> Collections.swap(words, at, sample.random.nextInt(words.size()));
                }
              }
              return String.join("", words);
            });
  }

  @Property(tries = 2000)
  void aSoupOfWordsGivesADiagnostic(@ForAll("soups") String text) {
    everyReaderTakes(text);
  }

  @Property(tries = 2000)
  void aTextWithSlipsGivesADiagnostic(@ForAll("slips") String text) {
    everyReaderTakes(text);
    everyReaderTakes("finish when " + text);
  }

  @Property(tries = 1000)
  void anyCharactersGiveADiagnostic(@ForAll String text) {
    everyReaderTakes(text);
  }

  private static void everyReaderTakes(String text) {
    World world = new World();
    long start = System.nanoTime();
    takes(text, RuleText::quantity);
    takes(text, RuleText::range);
    takes(text, RuleText::selection);
    takes(text, RuleText::choiceLine);
    takes(
        text,
        (span, problems) ->
            RuleText.expression(span, problems)
                .flatMap(
                    tree ->
                        Condition.of(tree, world.vocabulary(), new Layout.Builder(), problems)));
    takes(
        text,
        (span, problems) ->
            RuleText.expression(span, problems)
                .flatMap(
                    tree ->
                        Formula.of(
                            tree,
                            List.of(Kind.values()),
                            world.vocabulary(),
                            new Layout.Builder(),
                            problems)));
    takes(
        text,
        (span, problems) ->
            RuleText.sentence(span, problems)
                .flatMap(
                    sentence ->
                        Rule.of(sentence, world.vocabulary(), new Layout.Builder(), problems)));
    assertThat(Duration.ofNanos(System.nanoTime() - start)).as(text).isLessThan(SOON);
  }

  private static <T> void takes(String text, BiFunction<Span, Problems, Optional<T>> reader) {
    Problems problems = new Problems();
    Optional<T> read = reader.apply(Span.all("soup", text), problems);
    assertThat(read.isPresent()).as(text).isEqualTo(problems.isEmpty());
    for (Diagnostic problem : problems.sorted()) {
      assertThat(problem.toString()).startsWith("error[G").doesNotContain("{0}", "null");
    }
  }
}
