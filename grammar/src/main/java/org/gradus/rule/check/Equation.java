package org.gradus.rule.check;

import java.util.List;
import java.util.OptionalInt;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Operator;

/**
 * An equation that can be solved for one of the loads it is made of.
 *
 * @param name its name
 * @param loads the names of the loads
 * @param body what it works out
 */
public record Equation(String name, List<String> loads, Expression body) {

  public Equation {
    loads = List.copyOf(loads);
  }

  /** Whether it is a straight line in a load, as all published costs of loads are. */
  boolean isStraightIn(String load) {
    return degree(body, load).orElse(-1) == 1;
  }

  // How high the powers of the load go: 0, 1, 2, ...; empty where it is no polynomial.
  private static OptionalInt degree(Expression part, String load) {
    if (part instanceof Expression.Reference reference) {
      return OptionalInt.of(reference.name().equals(load) ? 1 : 0);
    } else if (part instanceof Expression.Arithmetic arithmetic) {
      return degree(arithmetic, load);
    } else if (part instanceof Expression.Share share) {
      return joined(degree(share.part(), load), degree(share.whole(), load), false);
    } else if (part instanceof Expression.Negation
        || part instanceof Expression.InUnit
        || part instanceof Expression.AsUnit) {
      return degree(part.parts().get(0), load);
    }
    boolean free = part.parts().stream().allMatch(inner -> degree(inner, load).orElse(-1) == 0);
    return free ? OptionalInt.of(0) : OptionalInt.empty();
  }

  private static OptionalInt degree(Expression.Arithmetic part, String load) {
    OptionalInt left = degree(part.left(), load);
    OptionalInt right = degree(part.right(), load);
    if (part.operator() == Operator.OVER) {
      return right.orElse(-1) == 0 ? left : OptionalInt.empty();
    }
    return joined(left, right, part.operator().isAdditive());
  }

  private static OptionalInt joined(OptionalInt a, OptionalInt b, boolean sum) {
    if (a.isEmpty() || b.isEmpty()) {
      return OptionalInt.empty();
    }
    return OptionalInt.of(sum ? Math.max(a.getAsInt(), b.getAsInt()) : a.getAsInt() + b.getAsInt());
  }
}
