package org.gradus.rule.conformance;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.antlr.v4.runtime.BailErrorStrategy;
import org.antlr.v4.runtime.CharStreams;
import org.antlr.v4.runtime.CommonTokenStream;
import org.antlr.v4.runtime.ParserInterpreter;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.atn.ATN;
import org.antlr.v4.runtime.atn.ATNState;
import org.antlr.v4.runtime.atn.DecisionState;
import org.antlr.v4.runtime.atn.SetTransition;
import org.antlr.v4.runtime.misc.IntervalSet;
import org.gradus.rule.syntax.GradusLexer;
import org.gradus.rule.syntax.GradusParser;

/**
 * Walks through the grammar along a text and notes every way it takes: at each fork which
 * alternative, and where one of several words may stand, which word.
 */
final class Walker extends ParserInterpreter {

  private final Set<String> taken;

  private Walker(GradusParser like, CommonTokenStream tokens, Set<String> taken) {
    super(
        "Gradus", GradusParser.VOCABULARY, List.of(GradusParser.ruleNames), like.getATN(), tokens);
    this.taken = taken;
    setErrorHandler(new BailErrorStrategy());
  }

  static Walker along(String text, Set<String> taken) {
    GradusLexer lexer = new GradusLexer(CharStreams.fromString(text));
    CommonTokenStream tokens = new CommonTokenStream(lexer);
    return new Walker(new GradusParser(tokens), tokens, taken);
  }

  @Override
  protected int visitDecisionState(DecisionState fork) {
    int way = super.visitDecisionState(fork);
    if (fork.getNumberOfTransitions() > 1) {
      taken.add(way(atn, fork, way));
    }
    return way;
  }

  @Override
  protected void visitState(ATNState state) {
    if (state.transition(0) instanceof SetTransition) {
      taken.add(word(state, getCurrentToken().getType()));
    }
    super.visitState(state);
  }

  /** All ways there are. */
  static Set<String> all() {
    ATN atn =
        new GradusParser(new CommonTokenStream(new GradusLexer(CharStreams.fromString(""))))
            .getATN();
    Set<String> all = new TreeSet<>();
    for (ATNState state : atn.states) {
      if (state instanceof DecisionState fork && fork.getNumberOfTransitions() > 1) {
        for (int way = 1; way <= fork.getNumberOfTransitions(); way++) {
          all.add(way(atn, fork, way));
        }
      } else if (state.getNumberOfTransitions() > 0
          && state.transition(0) instanceof SetTransition set) {
        set.label().toList().forEach(type -> all.add(word(state, type)));
      }
    }
    return all;
  }

  private static String way(ATN atn, DecisionState fork, int way) {
    IntervalSet next = atn.nextTokens(fork.transition(way - 1).target);
    return GradusParser.ruleNames[fork.ruleIndex]
        + ", fork "
        + fork.decision
        + ", way "
        + way
        + ": "
        + (next.size() > 8 ? "a value" : next.toString(GradusParser.VOCABULARY))
        + (next.contains(Token.EPSILON) ? " or what follows" : "");
  }

  private static String word(ATNState state, int type) {
    return GradusParser.ruleNames[state.ruleIndex]
        + ", place "
        + state.stateNumber
        + ": "
        + GradusParser.VOCABULARY.getDisplayName(type);
  }
}
