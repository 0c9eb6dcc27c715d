package org.gradus.examples.benchmarks;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.gradus.examples.benchmarks.Translation.Term;
import org.springframework.expression.spel.SpelCompilerMode;
import org.springframework.expression.spel.SpelParserConfiguration;
import org.springframework.expression.spel.standard.SpelCompiler;
import org.springframework.expression.spel.standard.SpelExpression;
import org.springframework.expression.spel.standard.SpelExpressionParser;
import org.springframework.expression.spel.support.StandardEvaluationContext;

/** Spring expressions over typed properties, compiled to byte code. */
final class SpringRules implements Evaluator, Sheet.Definitions {

  private final AskedMoment[] moments;
  private final Sheet sheet;
  private final StandardEvaluationContext context;
  private final SpelExpression[] rules;
  private final SpelExpression[] terms;

  SpringRules(AskedMoment[] moments) {
    this.moments = moments;
    this.sheet = new Sheet(this, moments[0]);
    this.context = new StandardEvaluationContext(sheet);
    SpelExpressionParser parser =
        new SpelExpressionParser(
            new SpelParserConfiguration(
                SpelCompilerMode.IMMEDIATE, SpringRules.class.getClassLoader()));
    List<SpelExpression> all = new ArrayList<>();
    this.terms =
        Stream.of(Term.values())
            .map(term -> parser.parseRaw(functions(term.text())))
            .toArray(SpelExpression[]::new);
    for (String rule : Translation.rules()) {
      all.add(parser.parseRaw(functions(rule)));
    }
    this.rules = all.toArray(SpelExpression[]::new);
    compile();
  }

  private static String functions(String text) {
    return text.replace("ABS(", "T(java.lang.Math).abs(")
        .replace("MIN(", "T(java.lang.Math).min(")
        .replace("FLOOR(", "T(java.lang.Math).floor(");
  }

  // The compiler learns the types of all parts from evaluations: a few passes over all moments.
  private void compile() {
    for (int round = 0; round < 3; round++) {
      for (int i = 0; i < moments.length; i++) {
        pass(i);
      }
    }
    List<SpelExpression> all = new ArrayList<>(List.of(terms));
    all.addAll(List.of(rules));
    for (SpelExpression expression : all) {
      if (!SpelCompiler.compile(expression)) {
        throw new IllegalStateException("not compiled: " + expression.getExpressionString());
      }
    }
  }

  @Override
  public long pass(int moment) {
    sheet.show(moments[moment]);
    long answers = 0;
    for (SpelExpression rule : rules) {
      answers = Answers.and(answers, truth(rule));
    }
    return answers;
  }

  private boolean truth(SpelExpression expression) {
    return Boolean.TRUE.equals(expression.getValue(context));
  }

  @Override
  public boolean truth(Term term, Sheet asking) {
    return truth(terms[term.place()]);
  }

  @Override
  public double number(Term term, Sheet asking) {
    Object value = terms[term.place()].getValue(context);
    return value instanceof Double number ? number : Double.NaN;
  }
}
