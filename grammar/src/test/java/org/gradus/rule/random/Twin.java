package org.gradus.rule.random;

import java.util.List;
import java.util.Optional;
import java.util.function.DoubleBinaryOperator;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * A second evaluator, straight from the page on the language: it looks up every name by its word
 * and keeps nothing. What is unknown is empty.
 */
record Twin(World world, Readings readings) {

  Optional<Boolean> truth(Expression tree) {
    if (tree instanceof Expression.And and) {
      return both(truth(and.left()), truth(and.right()));
    } else if (tree instanceof Expression.Or or) {
      return not(both(not(truth(or.left())), not(truth(or.right()))));
    } else if (tree instanceof Expression.Not not) {
      return not(truth(not.operand()));
    } else if (tree instanceof Expression.Comparison test) {
      return compare(test.relation(), number(test.left()), number(test.right()));
    } else if (tree instanceof Expression.Between between) {
      Optional<Double> value = number(between.value());
      return both(
          compare(Expression.Relation.AT_LEAST, value, number(between.low())),
          compare(Expression.Relation.AT_MOST, value, number(between.high())));
    } else if (tree instanceof Expression.Is is) {
      return word(is.subject()).map(word -> word.equals(is.option().text()) != is.negated());
    } else if (tree instanceof Expression.Choice choice) {
      Optional<Boolean> condition = truth(choice.condition());
      Optional<Boolean> yes = truth(choice.whenTrue());
      Optional<Boolean> no = truth(choice.whenFalse());
      return condition.isPresent()
          ? condition.get() ? yes : no
          : yes.equals(no) ? yes : Optional.empty();
    } else if (tree instanceof Expression.Call call) {
      Expression subject = call.arguments().get(0);
      return switch (call.function().text()) {
        case "known" -> Optional.of(isKnown(subject));
        case "completed" -> read(Aspect.COMPLETED, 0, subject).map(value -> value == 1);
        default -> read(Aspect.EVER, 0, subject).map(value -> value == 1);
      };
    }
    String name = ((Expression.Reference) tree).name();
    return world.definitions.containsKey(name)
        ? alternative(name).flatMap(this::truth)
        : read(Aspect.VALUE, 0, tree).map(value -> value == 1);
  }

  private static Optional<Boolean> both(Optional<Boolean> left, Optional<Boolean> right) {
    if (left.equals(Optional.of(false)) || right.equals(Optional.of(false))) {
      return Optional.of(false);
    }
    return left.isPresent() && right.isPresent() ? Optional.of(true) : Optional.empty();
  }

  private static Optional<Boolean> not(Optional<Boolean> answer) {
    return answer.map(yes -> !yes);
  }

  private static Optional<Boolean> compare(
      Expression.Relation relation, Optional<Double> left, Optional<Double> right) {
    if (left.isEmpty() || right.isEmpty()) {
      return Optional.empty();
    }
    double a = left.get();
    double b = right.get();
    boolean equal = Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b));
    return Optional.of(
        switch (relation) {
          case EQUAL -> equal;
          case UNEQUAL -> !equal;
          case LESS -> !equal && a < b;
          case MORE -> !equal && a > b;
          case AT_MOST -> equal || a < b;
          case AT_LEAST -> equal || a > b;
        });
  }

  private Optional<String> word(Expression subject) {
    Symbol symbol = world.symbol(((Expression.Reference) subject).name());
    if (symbol instanceof Symbol.Word word) {
      return Optional.of(word.word());
    }
    List<String> options = ((Type.Choice) symbol.type()).options();
    return read(Aspect.VALUE, 0, subject).map(value -> options.get(value.intValue()));
  }

  private boolean isKnown(Expression subject) {
    return switch (typeOf(subject)) {
      case "word" -> word(subject).isPresent();
      case "condition" -> truth(subject).isPresent();
      default -> number(subject).isPresent();
    };
  }

  private String typeOf(Expression tree) {
    if (tree instanceof Expression.Reference reference) {
      Type type =
          world
              .definition(reference.name())
              .map(World.Definition::type)
              .orElseGet(() -> world.symbol(reference.name()).type());
      return type instanceof Type.Choice ? "word" : type.equals(Type.CONDITION) ? "condition" : "";
    } else if (tree instanceof Expression.Choice choice) {
      return typeOf(choice.whenTrue());
    } else if (tree instanceof Expression.Call call) {
      return List.of("known", "ever", "completed").contains(call.function().text())
          ? "condition"
          : "";
    }
    boolean condition =
        tree instanceof Expression.And
            || tree instanceof Expression.Or
            || tree instanceof Expression.Not
            || tree instanceof Expression.Comparison
            || tree instanceof Expression.Between
            || tree instanceof Expression.Is;
    return condition ? "condition" : "";
  }

  Optional<Double> number(Expression tree) {
    if (tree instanceof Expression.Literal literal) {
      return Optional.of(literal.quantity().base());
    } else if (tree instanceof Expression.Reference reference) {
      return named(reference);
    } else if (tree instanceof Expression.Arithmetic sum) {
      return join(
          number(sum.left()),
          number(sum.right()),
          (a, b) ->
              switch (sum.operator()) {
                case PLUS -> a + b;
                case MINUS -> a - b;
                case TIMES -> a * b;
                case OVER -> a / b;
              });
    } else if (tree instanceof Expression.Negation negation) {
      return number(negation.operand()).map(x -> -x);
    } else if (tree instanceof Expression.Share share) {
      return join(number(share.part()), number(share.whole()), (a, b) -> percent(share, a, b));
    } else if (tree instanceof Expression.Power power) {
      return join(number(power.base()), number(power.exponent()), StrictMath::pow);
    } else if (tree instanceof Expression.InUnit in) {
      return number(in.operand()).flatMap(x -> finite(in.unit().unit().fromBase(x)));
    } else if (tree instanceof Expression.AsUnit as) {
      return number(as.operand()).flatMap(x -> finite(as.unit().unit().toBase(x)));
    } else if (tree instanceof Expression.Choice choice) {
      Optional<Boolean> condition = truth(choice.condition());
      Optional<Double> yes = number(choice.whenTrue());
      Optional<Double> no = number(choice.whenFalse());
      boolean agree = compare(Expression.Relation.EQUAL, yes, no).orElse(false);
      return condition.isPresent() ? condition.get() ? yes : no : agree ? yes : Optional.empty();
    }
    return called((Expression.Call) tree);
  }

  // n % of x is n * x / 100, to the last digit: where the part is written in per cent.
  private double percent(Expression.Share share, double part, double whole) {
    return written(share.part())
        .filter(quantity -> quantity.unit() == Unit.PERCENT)
        .map(quantity -> quantity.amount() * whole / 100)
        .orElse(part * whole);
  }

  private Optional<Quantity> written(Expression tree) {
    if (tree instanceof Expression.Literal literal) {
      return Optional.of(literal.quantity());
    }
    return tree instanceof Expression.Reference reference
            && world.names.get(reference.name()) instanceof Symbol.Figure figure
        ? Optional.of(figure.value())
        : Optional.empty();
  }

  private Optional<Double> named(Expression.Reference reference) {
    if (world.definitions.containsKey(reference.name())) {
      return alternative(reference.name()).flatMap(this::number);
    }
    return world.symbol(reference.name()) instanceof Symbol.Figure figure
        ? Optional.of(figure.value().base())
        : read(Aspect.VALUE, 0, reference);
  }

  // The first alternative that applies; none while that is open.
  private Optional<Expression> alternative(String name) {
    for (World.Line line : world.definition(name).orElseThrow().lines()) {
      Optional<Boolean> applies =
          line.when().stream().map(this::truth).reduce(Optional.of(true), Twin::both);
      if (applies.isEmpty()) {
        return Optional.empty();
      } else if (applies.get()) {
        return line.value();
      }
    }
    return Optional.empty();
  }

  private Optional<Double> called(Expression.Call call) {
    Expression first = call.arguments().get(0);
    return switch (call.function().text()) {
      case "abs" -> number(first).map(Math::abs);
      case "ln" -> number(first).flatMap(x -> finite(StrictMath.log(x)));
      case "exp" -> number(first).flatMap(x -> finite(StrictMath.exp(x)));
      case "sqrt" -> number(first).flatMap(x -> finite(StrictMath.sqrt(x)));
      case "lesser" -> join(number(first), number(call.arguments().get(1)), Math::min);
      case "greater" -> join(number(first), number(call.arguments().get(1)), Math::max);
      case "round" -> join(number(first), number(call.arguments().get(1)), Quantity::roundTo);
      case "highest" -> read(Aspect.HIGHEST, 0, first);
      case "lowest" -> read(Aspect.LOWEST, 0, first);
      case "average" -> read(Aspect.AVERAGE, seconds(call), first);
      case "earlier" -> read(Aspect.EARLIER, seconds(call), first);
      case "change" ->
          join(
              read(Aspect.VALUE, 0, first),
              read(Aspect.EARLIER, seconds(call), first),
              (now, before) -> now - before);
      case "count" -> read(Aspect.COUNT, 0, first);
      case "lookup" -> number(call.arguments().get(1)).flatMap(x -> tabled(first, x));
      case "load_for" -> loadFor(call, number(call.arguments().get(2)));
      case "interpolate" -> interpolated(call);
      case "extrapolate" -> onLine(call, number(call.arguments().get(2)));
      case "extrapolate_through" -> onLine(call, number(call.arguments().get(5)));
      default -> throw new AssertionError(call.function().text());
    };
  }

  private double seconds(Expression.Call call) {
    return number(call.arguments().get(1)).orElseThrow();
  }

  // The row at or before x and the row after it, found by counting rows. A hair beside is at a row.
  private Optional<Double> tabled(Expression name, double x) {
    Table table = ((Symbol.Tabled) world.symbol(((Expression.Reference) name).name())).table();
    List<Table.Point> rows = table.points();
    for (Table.Point row : rows) {
      if (Math.abs(row.x() - x) <= 1e-9 * Math.max(Math.abs(row.x()), Math.abs(x))) {
        return Optional.of(row.y());
      }
    }
    int before = (int) rows.stream().filter(row -> row.x() < x).count();
    boolean inside = before > 0 && before < rows.size();
    if (!inside) {
      double nearest = rows.get(before == 0 ? 0 : rows.size() - 1).y();
      return table.beyond() == Table.Beyond.NEAREST ? Optional.of(nearest) : Optional.empty();
    }
    Table.Point row = rows.get(before - 1);
    if (table.between() == Table.Between.STEP) {
      return Optional.of(row.y());
    }
    Table.Point next = rows.get(before);
    return Optional.of(row.y() + (next.y() - row.y()) * (x - row.x()) / (next.x() - row.x()));
  }

  // A straight line is known by two of its points; those at no load and at one unit of it serve.
  private Optional<Double> loadFor(Expression.Call call, Optional<Double> wanted) {
    Expression load = call.arguments().get(1);
    Expression body =
        ((Symbol.Solvable) world.symbol(((Expression.Reference) call.arguments().get(0)).name()))
            .equation()
            .body();
    Optional<Double> none = with(load, 0).number(body);
    Optional<Double> rise = join(with(load, 1).number(body), none, (one, zero) -> one - zero);
    Optional<Double> more = join(wanted, none, (all, zero) -> all - zero);
    return join(more, rise, (a, b) -> a / b);
  }

  private Twin with(Expression load, double value) {
    String name = ((Expression.Reference) load).name();
    return new Twin(world, readings.with(Readings.key(Aspect.VALUE, List.of(name), 0), value));
  }

  private Optional<Double> onLine(Expression.Call call, Optional<Double> at) {
    // All that comes before the place at which the line is read tells which line it is.
    int names = call.arguments().size() - 1;
    Expression[] axes = call.arguments().subList(0, names).toArray(new Expression[0]);
    Optional<Double> away = join(at, read(Aspect.LINE_MEAN_X, 0, axes), (x, mean) -> x - mean);
    Optional<Double> rise = join(read(Aspect.LINE_SLOPE, 0, axes), away, (a, b) -> a * b);
    return join(read(Aspect.LINE_MEAN_Y, 0, axes), rise, Double::sum);
  }

  private Optional<Double> interpolated(Expression.Call call) {
    Expression at = call.arguments().get(2);
    Optional<Quantity> fixed = written(at);
    Expression[] names =
        call.arguments().subList(0, fixed.isPresent() ? 2 : 3).toArray(new Expression[0]);
    return read(Aspect.INTERPOLATED, fixed.map(Quantity::base).orElse(0.0), names);
  }

  private Optional<Double> read(Aspect aspect, double seconds, Expression... subjects) {
    List<String> names =
        List.of(subjects).stream().map(tree -> ((Expression.Reference) tree).name()).toList();
    return readings.read(Readings.key(aspect, names, seconds));
  }

  private static Optional<Double> join(
      Optional<Double> left, Optional<Double> right, DoubleBinaryOperator operation) {
    return left.flatMap(a -> right.flatMap(b -> finite(operation.applyAsDouble(a, b))));
  }

  private static Optional<Double> finite(double number) {
    return Double.isFinite(number) ? Optional.of(number) : Optional.empty();
  }
}
