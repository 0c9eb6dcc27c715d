package org.gradus.examples.benchmarks;

import dev.cel.bundle.Cel;
import dev.cel.bundle.CelBuilder;
import dev.cel.bundle.CelFactory;
import dev.cel.common.CelValidationException;
import dev.cel.common.types.SimpleType;
import dev.cel.extensions.CelExtensions;
import dev.cel.runtime.CelEvaluationException;
import dev.cel.runtime.CelRuntime.Program;
import dev.cel.runtime.CelVariableResolver;
import java.util.stream.Stream;
import org.gradus.examples.benchmarks.Translation.Term;

/** CEL-Java programs, type-checked and planned beforehand, over typed variables. */
final class CelRules implements Evaluator {

  private final Variables[] moments;
  private final CelVariableResolver[] resolvers;
  private final Program[] rules;
  private final Program[] terms;

  CelRules(AskedMoment[] moments) {
    this.moments = new Variables[moments.length];
    this.resolvers = new CelVariableResolver[moments.length];
    for (int i = 0; i < moments.length; i++) {
      int place = i;
      this.moments[i] = new Variables(moments[i], term -> definition(term, place));
      this.resolvers[i] = this.moments[i]::find;
    }
    Cel cel = cel();
    this.terms =
        Stream.of(Term.values()).map(term -> program(cel, term.text())).toArray(Program[]::new);
    this.rules =
        Translation.rules().stream().map(rule -> program(cel, rule)).toArray(Program[]::new);
  }

  private static Cel cel() {
    CelBuilder builder =
        CelFactory.plannerCelBuilder()
            .addCompilerLibraries(CelExtensions.math())
            .addRuntimeLibraries(CelExtensions.math());
    Translation.NUMBERS.forEach(name -> builder.addVar(name, SimpleType.DOUBLE));
    Translation.TRUTHS.forEach(name -> builder.addVar(name, SimpleType.BOOL));
    for (Term term : Term.values()) {
      builder.addVar(term.word(), term.isCondition() ? SimpleType.BOOL : SimpleType.DOUBLE);
    }
    return builder.build();
  }

  private static Program program(Cel cel, String text) {
    String functions =
        text.replace("ABS(", "math.abs(")
            .replace("MIN(", "math.least(")
            .replace("FLOOR(", "math.floor(");
    try {
      return cel.createProgram(cel.compile(functions).getAst());
    } catch (CelValidationException | CelEvaluationException e) {
      throw new IllegalStateException(text, e);
    }
  }

  private Object definition(Term term, int moment) {
    return value(terms[term.place()], moment);
  }

  private Object value(Program program, int moment) {
    try {
      return program.eval(resolvers[moment]);
    } catch (CelEvaluationException e) {
      throw new IllegalStateException(e);
    }
  }

  @Override
  public long pass(int moment) {
    moments[moment].forgetDefinitions();
    long answers = 0;
    for (Program rule : rules) {
      answers = Answers.and(answers, (Boolean) value(rule, moment));
    }
    return answers;
  }
}
