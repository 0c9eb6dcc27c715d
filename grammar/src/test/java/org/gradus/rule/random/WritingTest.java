package org.gradus.rule.random;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.antlr.v4.runtime.BaseErrorListener;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.Parser;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.Recognizer;
import org.antlr.v4.runtime.atn.ATNConfigSet;
import org.antlr.v4.runtime.atn.PredictionMode;
import org.antlr.v4.runtime.dfa.DFA;
import org.gradus.rule.syntax.GradusLexer;
import org.gradus.rule.syntax.GradusParser;
import org.jspecify.annotations.Nullable;

/** Every tree has a text, and every text one tree. */
class WritingTest {

  @Provide
  Arbitrary<Sample> samples() {
    return Sample.samples(Grower.Bed.EVERYTHING);
  }

  @Property(tries = 100_000)
  void aTreeComesBackFromItsShortestTextAndTheParserSeesNoOtherReading(
      @ForAll("samples") Sample sample) {
    String text = Printer.text(sample.tree);
    assertThat(Printer.structure(sample.parsed)).as(text).isEqualTo(Printer.structure(sample.tree));
    assertThat(Printer.text(sample.parsed)).isEqualTo(text);
    hasOneReading(text);
  }

  private static void hasOneReading(String text) {
    GradusLexer lexer = new GradusLexer(CharStreams.fromString(text));
    GradusParser parser = new GradusParser(new CommonTokenStream(lexer));
    Complaints complaints = new Complaints();
    parser.removeErrorListeners();
    parser.addErrorListener(complaints);
    parser.getInterpreter().setPredictionMode(PredictionMode.LL_EXACT_AMBIG_DETECTION);
    parser.expression();
    assertThat(complaints.all).as(text).isEmpty();
  }

  private static final class Complaints extends BaseErrorListener {

    private final List<String> all = new ArrayList<>();

    @Override
    public void syntaxError(
        Recognizer<?, ?> recognizer,
        @Nullable Object offendingSymbol,
        int line,
        int charPositionInLine,
        String msg,
        @Nullable RecognitionException e) {
      all.add(msg);
    }

    @Override
    public void reportAmbiguity(
        Parser recognizer,
        DFA dfa,
        int startIndex,
        int stopIndex,
        boolean exact,
        @Nullable BitSet ambigAlts,
        ATNConfigSet configs) {
      all.add("two readings from token " + startIndex + " to " + stopIndex);
    }

    @Override
    public void reportAttemptingFullContext(
        Parser recognizer,
        DFA dfa,
        int startIndex,
        int stopIndex,
        @Nullable BitSet conflictingAlts,
        ATNConfigSet configs) {
      all.add("a second look from token " + startIndex + " to " + stopIndex);
    }
  }
}
