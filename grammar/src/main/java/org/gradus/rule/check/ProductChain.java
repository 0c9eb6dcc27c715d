package org.gradus.rule.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * A chain of {@code *} and {@code /} seen as a whole: equal kinds above and below the line cancel,
 * and what remains must be one kind or a number. Seen link by link, {@code uptake * rate / rate}
 * would fail at its first link.
 */
final class ProductChain {

  private final Expression.Arithmetic whole;
  private final List<Expression> above = new ArrayList<>();
  private final List<Expression> below = new ArrayList<>();

  private ProductChain(Expression.Arithmetic whole) {
    this.whole = whole;
    Expression link = whole;
    while (link instanceof Expression.Arithmetic product && !product.operator().isAdditive()) {
      (product.operator() == Operator.TIMES ? above : below).add(product.right());
      link = product.left();
    }
    above.add(link);
  }

  static ProductChain of(Expression.Arithmetic whole) {
    return new ProductChain(whole);
  }

  Optional<Type> type(Checker checker, Findings findings) {
    List<Kind> top = new ArrayList<>();
    List<Kind> bottom = new ArrayList<>();
    boolean soundAbove = collect(above, checker, top);
    boolean soundBelow = collect(below, checker, bottom);
    if (!soundAbove || !soundBelow) {
      return Optional.empty();
    }
    for (Kind kind : List.copyOf(bottom)) {
      if (top.remove(kind)) {
        bottom.remove(kind);
      }
    }
    if (bottom.isEmpty() && top.size() <= 1) {
      return Optional.of(top.isEmpty() ? Type.NUMBER : new Type.Measure(top.get(0)));
    }
    findings.problem(whole.span(), Code.G206, words(top, bottom));
    return Optional.empty();
  }

  private static boolean collect(List<Expression> factors, Checker checker, List<Kind> kinds) {
    boolean sound = true;
    // From the left of the text, so that messages come in its order.
    for (int i = factors.size() - 1; i >= 0; i--) {
      Optional<Kind> kind = checker.kind(factors.get(i));
      sound &= kind.isPresent();
      kind.filter(found -> found != Kind.NUMBER).ifPresent(kinds::add);
    }
    return sound;
  }

  private static String words(List<Kind> top, List<Kind> bottom) {
    String product = top.stream().map(Kind::words).collect(Collectors.joining(" x "));
    String divisor = bottom.stream().map(Kind::words).collect(Collectors.joining(" x "));
    if (divisor.isEmpty()) {
      return product;
    }
    return (product.isEmpty() ? "a number" : product) + " / " + divisor;
  }
}
