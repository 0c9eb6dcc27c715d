package org.gradus.rule.random;

import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.gradus.diagnostic.Span;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Symbol;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Name;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.rule.syntax.Expression.UnitName;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Grows random trees of a wanted type. */
final class Grower {

  /** What may grow. */
  enum Bed {
    /** The whole language. */
    EVERYTHING,
    /** Nothing that asks whether something is known. */
    WITHOUT_KNOWN,
    /** Nor a definition with several alternatives. */
    PLAIN,
    /**
     * Only what does not make more of a rounding: no differences, whose zero is a knife's edge, and
     * none of the functions that are steep somewhere.
     */
    STEADY
  }

  private static final Span NOWHERE = Span.all("", "");

  private final Random random;
  private final World world;
  private final Bed bed;

  Grower(Random random, World world, Bed bed) {
    this.random = random;
    this.world = world;
    this.bed = bed;
  }

  /** Adds a definition to the world that later trees may use. */
  void define(String name, int size) {
    Type type = random.nextInt(3) == 0 ? new Type.Measure(kind()) : Type.CONDITION;
    int lines = bed == Bed.PLAIN || random.nextBoolean() ? 1 : 2 + random.nextInt(2);
    List<World.Line> grown =
        random
            .ints(lines, 0, 5)
            .mapToObj(
                i ->
                    new World.Line(
                        lines == 1
                            ? List.of()
                            : random.ints(i % 3, 0, 1).mapToObj(j -> condition(size)).toList(),
                        i == 4 && lines > 1 ? Optional.empty() : Optional.of(any(type, size))))
            .toList();
    if (grown.stream().anyMatch(line -> line.value().isPresent())) {
      world.define(new World.Definition(name, type, grown));
    }
  }

  private Expression any(Type type, int size) {
    return type instanceof Type.Measure measure ? value(measure.kind(), size) : condition(size);
  }

  Kind kind() {
    return random.nextInt(3) == 0 ? Kind.NUMBER : pick(List.of(Kind.values()));
  }

  Expression condition(int size) {
    int rest = size - 1;
    return switch (size <= 0
        ? random.nextInt(4)
        : random.nextInt(bed == Bed.EVERYTHING ? 13 : 12)) {
      case 0 -> reference(pick(world.of(Type.CONDITION)));
      case 1 -> is();
      case 2 -> happened();
      case 3 -> comparison(Kind.HEART_RATE, 0);
      case 4, 5 -> new Expression.And(NOWHERE, condition(rest), condition(rest));
      case 6, 7 -> new Expression.Or(NOWHERE, condition(rest), condition(rest));
      case 8 -> new Expression.Not(NOWHERE, condition(rest));
      case 9 -> between(kind(), rest);
      case 10 -> new Expression.Choice(NOWHERE, condition(rest), condition(rest), condition(rest));
      case 11 -> comparison(kind(), rest);
      default -> known(rest);
    };
  }

  private Expression happened() {
    return random.nextInt(3) == 0
        ? call(Function.COMPLETED, reference("stage_" + random.nextInt(70)))
        : call(Function.EVER, reference(pick(world.inRole(Symbol.Role.SIGN))));
  }

  private Expression comparison(Kind kind, int size) {
    Relation relation = pick(List.of(Relation.values()));
    return new Expression.Comparison(NOWHERE, relation, value(kind, size), value(kind, size));
  }

  private Expression between(Kind kind, int size) {
    return new Expression.Between(NOWHERE, value(kind, size), value(kind, 0), value(kind, size));
  }

  private Expression is() {
    String subject = pick(List.of("sex", "gait", "end_rule", "stage"));
    Type.Choice type = (Type.Choice) world.symbol(subject).type();
    return new Expression.Is(
        NOWHERE, reference(subject), random.nextBoolean(), word(option(type.options())));
  }

  // Of many options mostly one of the last.
  private String option(List<String> options) {
    return options.get(Math.max(0, options.size() - 1 - random.nextInt(8)));
  }

  private Expression known(int size) {
    return call(
        Function.KNOWN,
        switch (random.nextInt(4)) {
          case 0 -> reference(pick(List.of("sex", "end_rule", "heart_rate", "speed")));
          case 1 -> condition(size);
          default -> value(kind(), size);
        });
  }

  Expression value(Kind kind, int size) {
    if (size <= 0) {
      return leaf(kind);
    }
    int rest = size - 1;
    return switch (random.nextInt(bed == Bed.STEADY ? 9 : kind == Kind.NUMBER ? 22 : 16)) {
      case 0 -> leaf(kind);
      case 1 -> product(kind, rest);
      case 2 -> joined(Operator.OVER, value(kind, rest), value(Kind.NUMBER, rest));
      case 3 -> new Expression.Negation(NOWHERE, value(kind, rest));
      case 4 -> new Expression.Share(NOWHERE, part(rest), value(kind, rest));
      case 5 ->
          new Expression.Choice(NOWHERE, condition(rest), value(kind, rest), value(kind, rest));
      case 6 -> call(Function.ABS, value(kind, rest));
      case 7 ->
          call(pick(List.of(Function.LESSER, Function.GREATER)), value(kind, rest), value(kind, 0));
      case 8 -> new Expression.AsUnit(NOWHERE, value(Kind.NUMBER, rest), unit(kind));
      case 9 -> call(Function.ROUND, value(kind, rest), value(kind, random.nextInt(2)));
      case 10, 11 ->
          joined(
              pick(List.of(Operator.PLUS, Operator.MINUS)), value(kind, rest), value(kind, rest));
      case 12 -> ofSignal(kind);
      case 13 -> line(kind, rest);
      case 14 -> tabled(kind, rest);
      case 15 -> solved(kind, rest);
      case 16 -> new Expression.Power(NOWHERE, value(Kind.NUMBER, rest), exponent(rest));
      case 17 ->
          call(pick(List.of(Function.LN, Function.EXP, Function.SQRT)), value(Kind.NUMBER, rest));
      case 18 -> quotient(kind(), rest);
      case 19 -> counted();
      default -> taken(kind(), rest);
    };
  }

  private Expression leaf(Kind kind) {
    List<String> known = world.of(new Type.Measure(kind));
    return known.isEmpty() || random.nextInt(3) == 0 ? literal(kind) : reference(pick(known));
  }

  private Expression literal(Kind kind) {
    Unit unit = pick(units(kind));
    double amount = Math.rint(unit.fromBase(Readings.typical(kind, random)) * 100) / 100;
    return new Expression.Literal(NOWHERE, Quantity.of(Math.abs(amount), unit));
  }

  // A kind that comes and goes again, and a plain factor.
  private Expression product(Kind kind, int size) {
    Kind other = kind();
    return switch (random.nextInt(3)) {
      case 0 -> joined(Operator.TIMES, value(kind, size), value(Kind.NUMBER, size));
      case 1 -> joined(Operator.TIMES, quotient(other, 0), value(kind, size));
      default ->
          joined(
              Operator.OVER,
              joined(Operator.TIMES, value(kind, size), value(other, 0)),
              value(other, size));
    };
  }

  private Expression quotient(Kind kind, int size) {
    return joined(Operator.OVER, value(kind, size), value(kind, size));
  }

  private Expression part(int size) {
    return switch (random.nextInt(3)) {
      case 0 -> reference("ceiling");
      case 1 -> value(Kind.NUMBER, size);
      default ->
          new Expression.Literal(NOWHERE, Quantity.of(5.0 * random.nextInt(25), Unit.PERCENT));
    };
  }

  private Expression exponent(int size) {
    if (random.nextInt(4) == 0) {
      return value(Kind.NUMBER, size);
    }
    double small = random.nextInt(4) + (random.nextInt(3) == 0 ? 0.5 : 0);
    Expression literal = new Expression.Literal(NOWHERE, Quantity.of(small, Unit.ONE));
    return random.nextInt(3) == 0 ? new Expression.Negation(NOWHERE, literal) : literal;
  }

  private Expression taken(Kind kind, int size) {
    return new Expression.InUnit(NOWHERE, value(kind, size), unit(kind));
  }

  private Expression ofSignal(Kind kind) {
    List<String> signals =
        world.of(new Type.Measure(kind)).stream()
            .filter(world.inRole(Symbol.Role.SIGNAL)::contains)
            .toList();
    if (signals.isEmpty()) {
      return leaf(kind);
    }
    Expression signal = reference(pick(signals));
    Expression minute =
        random.nextBoolean()
            ? reference("pause")
            : new Expression.Literal(NOWHERE, Quantity.of(1, Unit.MINUTE));
    return switch (random.nextInt(5)) {
      case 0 -> call(Function.EARLIER, signal, minute);
      case 1 -> call(Function.AVERAGE, signal, minute);
      case 2 -> call(Function.HIGHEST, signal);
      case 3 -> call(Function.LOWEST, signal);
      default -> call(Function.CHANGE, signal, minute);
    };
  }

  private Expression line(Kind kind, int size) {
    List<String> axes = world.of(new Type.Measure(kind));
    if (axes.isEmpty()) {
      return leaf(kind);
    }
    Expression y = reference(pick(axes));
    Expression x = reference("heart_rate");
    Expression at = value(Kind.HEART_RATE, size);
    int way = random.nextInt(4);
    if (way == 0) {
      return call(Function.EXTRAPOLATE, y, x, at);
    } else if (way == 1) {
      return call(Function.INTERPOLATE, y, x, leaf(Kind.HEART_RATE));
    }
    List<String> rates = world.of(new Type.Measure(Kind.HEART_RATE));
    return call(
        Function.EXTRAPOLATE_THROUGH,
        y,
        x,
        reference(pick(axes)),
        reference(pick(rates)),
        reference(pick(rates)),
        at);
  }

  private Expression tabled(Kind kind, int size) {
    List<Table> tables = world.tables(kind);
    if (tables.isEmpty()) {
      return leaf(kind);
    }
    Table table = pick(tables);
    return call(Function.LOOKUP, reference(table.name()), value(table.of(), size));
  }

  private Expression solved(Kind kind, int size) {
    return switch (kind) {
      case SPEED -> solved("walking", "speed", size);
      case NUMBER -> solved("walking", "grade", size);
      case POWER -> solved("cycling", "load", size);
      default -> leaf(kind);
    };
  }

  private Expression solved(String equation, String load, int size) {
    return call(Function.LOAD_FOR, reference(equation), reference(load), value(Kind.UPTAKE, size));
  }

  private Expression counted() {
    List<String> terms =
        world.of(Type.CONDITION).stream().filter(world.definitions::containsKey).toList();
    return terms.isEmpty() ? leaf(Kind.NUMBER) : call(Function.COUNT, reference(pick(terms)));
  }

  private static Expression joined(Operator operator, Expression left, Expression right) {
    return new Expression.Arithmetic(NOWHERE, operator, left, right);
  }

  private static Expression call(Function function, Expression... arguments) {
    return new Expression.Call(NOWHERE, word(function.word()), List.of(arguments));
  }

  private static Expression reference(String name) {
    return new Expression.Reference(NOWHERE, name);
  }

  private static Name word(String text) {
    return new Name(NOWHERE, text);
  }

  private UnitName unit(Kind kind) {
    return new UnitName(
        NOWHERE, pick(units(kind).stream().filter(unit -> unit != Unit.ONE).toList()));
  }

  static List<Unit> units(Kind kind) {
    return List.of(Unit.values()).stream().filter(unit -> unit.kind() == kind).toList();
  }

  private <T> T pick(List<T> from) {
    return from.get(random.nextInt(from.size()));
  }
}
