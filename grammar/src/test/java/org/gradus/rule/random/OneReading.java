package org.gradus.rule.random;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Consumer;
import org.antlr.v4.runtime.BaseErrorListener;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.Parser;
import org.antlr.v4.runtime.RecognitionException;
import org.antlr.v4.runtime.Recognizer;
import org.antlr.v4.runtime.atn.ATNConfigSet;
import org.antlr.v4.runtime.atn.ParserATNSimulator;
import org.antlr.v4.runtime.atn.PredictionMode;
import org.antlr.v4.runtime.dfa.DFA;
import org.gradus.rule.syntax.GradusLexer;
import org.gradus.rule.syntax.GradusParser;
import org.jspecify.annotations.Nullable;

/** Looks whether a text has exactly one reading, and whether the parser sees it at once. */
public final class OneReading {

  private OneReading() {}

  /** What the parser has to complain about; empty for a sound text with one reading. */
  public static List<String> complaints(String text, Consumer<GradusParser> entry) {
    GradusLexer lexer = new GradusLexer(CharStreams.fromString(text));
    GradusParser parser = new GradusParser(new CommonTokenStream(lexer));
    List<String> complaints = watch(parser);
    entry.accept(parser);
    return complaints;
  }

  /** The growing list of what a parser, of any make, complains about. */
  public static List<String> watch(Parser parser) {
    Complaints complaints = new Complaints();
    parser.removeErrorListeners();
    parser.addErrorListener(complaints);
    ParserATNSimulator simulator = parser.getInterpreter();
    simulator.setPredictionMode(PredictionMode.LL_EXACT_AMBIG_DETECTION);
    return complaints.all;
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
