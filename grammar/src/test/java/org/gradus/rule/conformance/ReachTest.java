package org.gradus.rule.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.tree.ParseTree;
import org.gradus.diagnostic.Code;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Function;
import org.gradus.rule.random.OneReading;
import org.gradus.rule.syntax.GradusLexer;
import org.gradus.rule.syntax.GradusParser;
import org.gradus.unit.Unit;
import org.junit.jupiter.api.Test;

/** The cases leave out nothing of the language. */
class ReachTest {

  private static final List<Case> READABLE =
      CaseFile.all().stream().filter(given -> !given.isUnreadable()).toList();

  @Test
  void everyLabelOfTheGrammarIsReached() {
    Set<String> reached = new TreeSet<>();
    for (Case given : READABLE) {
      collect(Entry.read(given, parser(given)), reached);
    }
    Set<String> missed = labels();
    assertThat(missed).hasSizeGreaterThan(50);
    missed.removeAll(reached);
    assertThat(missed).isEmpty();
  }

  private static GradusParser parser(Case given) {
    GradusLexer lexer = new GradusLexer(CharStreams.fromString(given.text()));
    return new GradusParser(new CommonTokenStream(lexer));
  }

  private static void collect(ParseTree tree, Set<String> reached) {
    if (tree instanceof ParserRuleContext) {
      reached.add(tree.getClass().getSimpleName());
    }
    for (int i = 0; i < tree.getChildCount(); i++) {
      collect(tree.getChild(i), reached);
    }
  }

  // The contexts of the parser, without those that only stand for their labelled alternatives.
  private static Set<String> labels() {
    List<Class<?>> contexts =
        Arrays.stream(GradusParser.class.getDeclaredClasses())
            .filter(ParserRuleContext.class::isAssignableFrom)
            .collect(Collectors.toList());
    List<Class<?>> parents = contexts.stream().<Class<?>>map(Class::getSuperclass).toList();
    return contexts.stream()
        .filter(context -> !parents.contains(context))
        .map(Class::getSimpleName)
        .collect(Collectors.toCollection(TreeSet::new));
  }

  @Test
  void everyWayThroughTheGrammarIsTakenAndSeenAtOnce() {
    Set<String> taken = new TreeSet<>();
    for (Case given : READABLE) {
      Walker walker = Walker.along(given.text(), taken);
      List<String> complaints = OneReading.watch(walker);
      walker.parse(Entry.index(given));
      assertThat(complaints).as(given.toString()).isEmpty();
    }
    Set<String> missed = Walker.all();
    missed.removeAll(taken);
    assertThat(missed).isEmpty();
  }

  // G217 is for rules that stand where a condition is needed or must not be; only a file knows
  // that.
  @Test
  void everyErrorOfTheLanguageIsMade() {
    List<String> made =
        CaseFile.all().stream()
            .flatMap(given -> given.expected().errors().stream())
            .map(error -> error.substring(0, "G101".length()))
            .toList();
    assertThat(Code.values())
        .extracting(Code::name)
        .filteredOn(code -> code.startsWith("G1") || code.startsWith("G2"))
        .filteredOn(code -> !code.equals("G217"))
        .allSatisfy(code -> assertThat(made).contains(code));
  }

  @Test
  void everyReasonForAnUnknownIsGiven() {
    List<String> given =
        CaseFile.all().stream()
            .flatMap(asked -> asked.expected().unknown().values().stream())
            .flatMap(List::stream)
            .toList();
    for (Gap.Cause cause : Gap.Cause.values()) {
      assertThat(given).anyMatch(reason -> reason.startsWith(cause.words() + ", "));
    }
  }

  @Test
  void everySpellingOfAWordOrSignIsRead() {
    Set<String> read = new TreeSet<>();
    for (Case given : READABLE) {
      GradusLexer lexer = new GradusLexer(CharStreams.fromString(given.text()));
      lexer.getAllTokens().forEach(token -> read.add(token.getText()));
    }
    assertThat(read).contains("<", "<=", "≤", ">", ">=", "≥", "=", "!=", "≠");
    assertThat(read).contains("+", "-", "−", "*", "×", "/", "÷", "^", "%", "(", ")", ",", ".");
    for (int type = 1; type <= GradusLexer.VOCABULARY.getMaxTokenType(); type++) {
      String word = GradusLexer.VOCABULARY.getLiteralName(type);
      if (word != null) {
        assertThat(read).contains(word.substring(1, word.length() - 1));
      }
    }
    for (Unit unit : Unit.values()) {
      unit.spellings()
          .filter(name -> !name.isEmpty())
          .forEach(name -> assertThat(read).contains(name));
    }
    for (Function function : Function.values()) {
      assertThat(read).contains(function.word());
    }
  }
}
