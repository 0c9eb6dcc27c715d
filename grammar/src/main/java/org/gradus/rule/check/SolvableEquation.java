package org.gradus.rule.check;

import java.util.List;
import java.util.OptionalInt;
import java.util.function.IntBinaryOperator;
import org.gradus.rule.syntax.Expression;

/**
 * An equation that can be solved for one of the loads it is made of.
 *
 * @param name its name
 * @param loads the names of the loads
 * @param body what it works out
 */
public record SolvableEquation(String name, List<String> loads, Expression body) {

  public SolvableEquation {
    loads = List.copyOf(loads);
  }

  /** Whether it is a straight line in a load, as all published costs of loads are. */
  boolean isStraightIn(String load) {
    return degree(body, load).orElse(-1) == 1;
  }

  // How high the powers of the load go: 0, 1, 2, ...; empty where it is no polynomial.
  private static OptionalInt degree(Expression part, String load) {
    return part.accept(new Degree(load));
  }

  /** Works out how high the powers of a load go. */
  private record Degree(String load) implements Expression.Visitor<OptionalInt> {

    private OptionalInt of(Expression part) {
      return part.accept(this);
    }

    // What bends, or asks, is no polynomial unless the load does not stand in it.
    private OptionalInt free(Expression part) {
      boolean free = part.parts().stream().allMatch(inner -> of(inner).orElse(-1) == 0);
      return free ? OptionalInt.of(0) : OptionalInt.empty();
    }

    private OptionalInt joined(Expression left, Expression right, IntBinaryOperator operation) {
      OptionalInt a = of(left);
      OptionalInt b = of(right);
      return a.isPresent() && b.isPresent()
          ? OptionalInt.of(operation.applyAsInt(a.getAsInt(), b.getAsInt()))
          : OptionalInt.empty();
    }

    @Override
    public OptionalInt reference(Expression.Reference reference) {
      return OptionalInt.of(reference.name().equals(load) ? 1 : 0);
    }

    @Override
    public OptionalInt literal(Expression.Literal literal) {
      return OptionalInt.of(0);
    }

    @Override
    public OptionalInt arithmetic(Expression.Arithmetic arithmetic) {
      return switch (arithmetic.operator()) {
        case PLUS, MINUS -> joined(arithmetic.left(), arithmetic.right(), Math::max);
        case TIMES -> joined(arithmetic.left(), arithmetic.right(), Integer::sum);
        case OVER ->
            of(arithmetic.right()).orElse(-1) == 0 ? of(arithmetic.left()) : OptionalInt.empty();
      };
    }

    @Override
    public OptionalInt share(Expression.Share share) {
      return joined(share.part(), share.whole(), Integer::sum);
    }

    @Override
    public OptionalInt negation(Expression.Negation negation) {
      return of(negation.operand());
    }

    @Override
    public OptionalInt inUnit(Expression.InUnit in) {
      return of(in.operand());
    }

    @Override
    public OptionalInt asUnit(Expression.AsUnit as) {
      return of(as.operand());
    }

    @Override
    public OptionalInt choice(Expression.Choice choice) {
      return free(choice);
    }

    @Override
    public OptionalInt or(Expression.Or or) {
      return free(or);
    }

    @Override
    public OptionalInt and(Expression.And and) {
      return free(and);
    }

    @Override
    public OptionalInt not(Expression.Not not) {
      return free(not);
    }

    @Override
    public OptionalInt comparison(Expression.Comparison comparison) {
      return free(comparison);
    }

    @Override
    public OptionalInt between(Expression.Between between) {
      return free(between);
    }

    @Override
    public OptionalInt is(Expression.Is is) {
      return free(is);
    }

    @Override
    public OptionalInt power(Expression.Power power) {
      return free(power);
    }

    @Override
    public OptionalInt call(Expression.Call call) {
      return free(call);
    }
  }
}
