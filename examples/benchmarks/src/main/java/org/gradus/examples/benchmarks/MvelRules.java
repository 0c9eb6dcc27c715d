package org.gradus.examples.benchmarks;

import java.io.Serializable;
import java.util.stream.Stream;
import org.gradus.examples.benchmarks.Translation.Term;
import org.mvel2.MVEL;
import org.mvel2.ParserContext;

/** MVEL expressions, compiled beforehand with strong typing over the properties of an object. */
final class MvelRules implements Evaluator, Sheet.Definitions {

  private final AskedMoment[] moments;
  private final Sheet sheet;
  private final Serializable[] rules;
  private final Serializable[] terms;

  MvelRules(AskedMoment[] moments) {
    this.moments = moments;
    this.sheet = new Sheet(this, moments[0]);
    this.terms =
        Stream.of(Term.values()).map(term -> compiled(term.text())).toArray(Serializable[]::new);
    this.rules = Translation.rules().stream().map(this::compiled).toArray(Serializable[]::new);
  }

  private Serializable compiled(String text) {
    ParserContext types = new ParserContext();
    types.setStrongTyping(true);
    types.addInput("this", Sheet.class);
    String functions =
        text.replace("ABS(", "Math.abs(")
            .replace("MIN(", "Math.min(")
            .replace("FLOOR(", "Math.floor(");
    return MVEL.compileExpression(functions, types);
  }

  @Override
  public long pass(int moment) {
    sheet.show(moments[moment]);
    long answers = 0;
    for (Serializable rule : rules) {
      answers = Answers.and(answers, MVEL.executeExpression(rule, sheet, Boolean.class));
    }
    return answers;
  }

  @Override
  public boolean truth(Term term, Sheet asking) {
    return MVEL.executeExpression(terms[term.place()], sheet, Boolean.class);
  }

  @Override
  public double number(Term term, Sheet asking) {
    return MVEL.executeExpression(terms[term.place()], sheet, Double.class);
  }
}
