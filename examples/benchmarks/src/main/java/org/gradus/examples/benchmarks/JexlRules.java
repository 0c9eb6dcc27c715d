package org.gradus.examples.benchmarks;

import java.util.Map;
import java.util.stream.Stream;
import org.apache.commons.jexl3.JexlBuilder;
import org.apache.commons.jexl3.JexlContext;
import org.apache.commons.jexl3.JexlEngine;
import org.apache.commons.jexl3.JexlExpression;
import org.gradus.examples.benchmarks.Translation.Term;
import org.jspecify.annotations.Nullable;

/** Commons JEXL expressions, parsed beforehand, over a context of boxed variables. */
final class JexlRules implements Evaluator {

  private final Variables[] moments;
  private final JexlContext[] contexts;
  private final JexlExpression[] rules;
  private final JexlExpression[] terms;

  JexlRules(AskedMoment[] moments) {
    this.moments = new Variables[moments.length];
    this.contexts = new JexlContext[moments.length];
    for (int i = 0; i < moments.length; i++) {
      int place = i;
      this.moments[i] = new Variables(moments[i], term -> definition(term, place));
      this.contexts[i] = new Context(this.moments[i]);
    }
    JexlEngine jexl =
        new JexlBuilder()
            .strict(true)
            .silent(false)
            .safe(false)
            .antish(false)
            .cache(256)
            .namespaces(Map.of("math", Math.class))
            .create();
    this.terms =
        Stream.of(Term.values())
            .map(term -> jexl.createExpression(functions(term.text())))
            .toArray(JexlExpression[]::new);
    this.rules =
        Translation.rules().stream()
            .map(rule -> jexl.createExpression(functions(rule)))
            .toArray(JexlExpression[]::new);
  }

  private static String functions(String text) {
    return text.replace("ABS(", "math:abs(")
        .replace("MIN(", "math:min(")
        .replace("FLOOR(", "math:floor(");
  }

  private Object definition(Term term, int moment) {
    return terms[term.place()].evaluate(contexts[moment]);
  }

  @Override
  public long pass(int moment) {
    moments[moment].forgetDefinitions();
    long answers = 0;
    for (JexlExpression rule : rules) {
      answers = Answers.and(answers, (Boolean) rule.evaluate(contexts[moment]));
    }
    return answers;
  }

  private record Context(Variables variables) implements JexlContext {
    @Override
    public @Nullable Object get(String name) {
      return variables.find(name).orElse(null);
    }

    @Override
    public boolean has(String name) {
      return variables.find(name).isPresent();
    }

    @Override
    public void set(String name, Object value) {
      throw new UnsupportedOperationException(name);
    }
  }
}
