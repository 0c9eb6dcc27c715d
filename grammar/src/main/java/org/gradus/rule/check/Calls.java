package org.gradus.rule.check;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Suggestion;
import org.gradus.rule.check.Demand.Aspect;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** The checks of calls: how many arguments, of what kind, and what slots they need. */
final class Calls {

  private static final int ANCHOR_Y = 2;
  private static final int ANCHOR_X = 3;
  private static final int ANCHOR_SD = 4;

  private final Checker checker;
  private final Findings findings;

  Calls(Checker checker, Findings findings) {
    this.checker = checker;
    this.findings = findings;
  }

  Optional<Type> type(Expression.Call call) {
    Optional<Function> named = Function.named(call.function().text());
    if (named.isEmpty()) {
      findings.problem(
          call.function().span(),
          Code.G203,
          call.function().text(),
          Suggestion.help(
              call.function().text(),
              Function.words(),
              "the functions are " + String.join(", ", Function.words())));
      return Optional.empty();
    }
    Function function = named.get();
    if (call.arguments().size() != function.arity()) {
      String takes = function.arity() + (function.arity() == 1 ? " argument" : " arguments");
      findings.problem(
          call.span(),
          Code.G212,
          function.word(),
          takes,
          Integer.toString(call.arguments().size()),
          function.example());
      return Optional.empty();
    }
    findings.means(call, new PartMeaning.Plain(function));
    return switch (function) {
      case ABS -> checker.kind(call.arguments().get(0)).map(Type.Measure::new);
      case LN, EXP, SQRT ->
          checker.number(call.arguments().get(0), function.word())
              ? Optional.of(Type.NUMBER)
              : Optional.empty();
      case LESSER, GREATER, ROUND ->
          checker
              .sameKind(Code.G204, call.arguments().get(0), call.arguments().get(1))
              .map(Type.Measure::new);
      case KNOWN -> checker.type(call.arguments().get(0)).map(type -> Type.CONDITION);
      case CHANGE -> change(call);
      case EARLIER -> overTime(call, signal(call), Aspect.EARLIER);
      case AVERAGE -> overTime(call, measure(call), Aspect.AVERAGE);
      case HIGHEST -> overStage(call, Aspect.HIGHEST);
      case LOWEST -> overStage(call, Aspect.LOWEST);
      case EVER -> ever(call);
      case COUNT -> count(call);
      case COMPLETED -> completed(call);
      case LOOKUP -> lookup(call);
      case LOAD_FOR -> new Solving(checker, findings).loadFor(call);
      case EXTRAPOLATE -> extrapolate(call);
      case INTERPOLATE -> interpolate(call);
      case EXTRAPOLATE_THROUGH -> extrapolateThrough(call);
    };
  }

  private Optional<Type> change(Expression.Call call) {
    Optional<Symbol.Datum> signal = measure(call);
    Optional<Double> time = stretch(call);
    if (signal.isEmpty() || time.isEmpty()) {
      return Optional.empty();
    }
    PartMeaning.Slot now = findings.slot(signal.get().demand());
    findings.means(
        call,
        new PartMeaning.Difference(
            now, findings.slot(view(Aspect.EARLIER, signal.get(), time.get()))));
    return Optional.of(signal.get().type());
  }

  private Optional<Type> overTime(
      Expression.Call call, Optional<Symbol.Datum> signal, Aspect aspect) {
    Optional<Double> time = stretch(call);
    if (signal.isEmpty() || time.isEmpty()) {
      return Optional.empty();
    }
    findings.means(call, findings.slot(view(aspect, signal.get(), time.get())));
    return Optional.of(signal.get().type());
  }

  private Optional<Type> overStage(Expression.Call call, Aspect aspect) {
    Optional<Symbol.Datum> signal = measure(call);
    signal.ifPresent(
        datum ->
            findings.means(
                call,
                findings.slot(new Demand(aspect, datum.demand().subjects(), 0, datum.type()))));
    return signal.map(Symbol.Datum::type);
  }

  private static Demand view(Aspect aspect, Symbol.Datum signal, double seconds) {
    return new Demand(aspect, signal.demand().subjects(), seconds, signal.type());
  }

  private Optional<Type> ever(Expression.Call call) {
    Optional<Symbol.Datum> sign = datum(call.arguments().get(0), Symbol.Role.SIGN);
    if (sign.isEmpty()) {
      findings.needsName(call, "a sign", is(Symbol.Role.SIGN), "declare it under signs");
      return Optional.empty();
    }
    findings.means(
        call,
        findings.slot(new Demand(Aspect.EVER, sign.get().demand().subjects(), 0, Type.CONDITION)));
    return Optional.of(Type.CONDITION);
  }

  // The definition is asked at the end of every stage; what it rests on is needed here too.
  private Optional<Type> count(Expression.Call call) {
    Optional<Term> term =
        findings
            .symbol(call.arguments().get(0))
            .filter(Calls::isCondition)
            .map(symbol -> ((Symbol.Definition) symbol).term());
    if (term.isEmpty()) {
      String help = "define the condition and count its name";
      findings.needsName(call, "a condition", Calls::isCondition, help);
      return Optional.empty();
    }
    findings.means(call.arguments().get(0), new PartMeaning.Use(term.get()));
    Demand demand = new Demand(Aspect.COUNT, List.of(term.get().name()), 0, Type.NUMBER);
    findings.means(call, findings.slot(demand));
    return Optional.of(Type.NUMBER);
  }

  private static boolean isCondition(Symbol symbol) {
    return symbol instanceof Symbol.Definition definition
        && definition.type().equals(Type.CONDITION);
  }

  private Optional<Type> completed(Expression.Call call) {
    Expression argument = call.arguments().get(0);
    if (!(argument instanceof Expression.Reference stage)
        || !findings.stages().contains(stage.name())) {
      String otherwise = "the stages are " + String.join(", ", findings.stages());
      String help = findings.help(argument.span().text(), findings.stages(), otherwise);
      findings.problem(argument.span(), Code.G213, call.function().text(), "a stage", help);
      return Optional.empty();
    }
    findings.means(
        call,
        findings.slot(new Demand(Aspect.COMPLETED, List.of(stage.name()), 0, Type.CONDITION)));
    return Optional.of(Type.CONDITION);
  }

  private Optional<Type> lookup(Expression.Call call) {
    Optional<Kind> kind = checker.kind(call.arguments().get(1));
    Optional<Table> table =
        findings
            .symbol(call.arguments().get(0))
            .filter(Symbol.Tabled.class::isInstance)
            .map(symbol -> ((Symbol.Tabled) symbol).table());
    if (table.isEmpty()) {
      findings.needsName(
          call, "a table", Symbol.Tabled.class::isInstance, "declare it under tables");
      return Optional.empty();
    }
    if (kind.isPresent() && kind.get() != table.get().of()) {
      findings.problem(
          call.arguments().get(1).span(),
          Code.G305,
          call.arguments().get(1).span().text() + " (" + kind.get().phrase() + ")",
          table.get().of().phrase(),
          "the table " + table.get().name() + " is read at " + table.get().of().phrase());
      return Optional.empty();
    }
    findings.means(call, new PartMeaning.Reading(table.get()));
    return kind.map(known -> new Type.Measure(table.get().gives()));
  }

  // The two axes are names, not sums: each is read at the end of every selected stage.
  private Optional<Type> extrapolate(Expression.Call call) {
    Optional<Type> y = axis(call, 0);
    Optional<Type> x = axis(call, 1);
    if (y.isEmpty() || x.isEmpty() || !isLike(call, 1, x.get(), 2)) {
      return Optional.empty();
    }
    return line(call, y.get(), x.get());
  }

  // Where it is read is fixed or has a name, as the axes have.
  private Optional<Type> interpolate(Expression.Call call) {
    Optional<Type> y = axis(call, 0);
    Optional<Type> x = axis(call, 1);
    if (y.isEmpty() || x.isEmpty() || !isLike(call, 1, x.get(), 2)) {
      return Optional.empty();
    }
    List<String> names = new ArrayList<>(List.of(name(call, 0), name(call, 1)));
    Optional<Quantity> fixed = findings.constant(call.arguments().get(2));
    if (fixed.isEmpty()) {
      if (axis(call, 2).isEmpty()) {
        return Optional.empty();
      }
      names.add(name(call, 2));
    }
    double at = fixed.map(Quantity::base).orElse(0.0);
    findings.means(call, findings.slot(new Demand(Aspect.INTERPOLATED, names, at, y.get())));
    return y;
  }

  // The anchor is given by names too, so that each of its figures has a place and a source.
  private Optional<Type> extrapolateThrough(Expression.Call call) {
    Optional<Type> y = axis(call, 0);
    Optional<Type> x = axis(call, 1);
    boolean named = true;
    for (int argument = ANCHOR_Y; argument <= ANCHOR_SD; argument++) {
      named &= axis(call, argument).isPresent();
    }
    if (y.isEmpty()
        || x.isEmpty()
        || !named
        || !isLike(call, 0, y.get(), ANCHOR_Y)
        || !isLike(call, 1, x.get(), ANCHOR_X)
        || !isLike(call, 1, x.get(), ANCHOR_SD)
        || !isLike(call, 1, x.get(), call.arguments().size() - 1)) {
      return Optional.empty();
    }
    return line(call, y.get(), x.get());
  }

  // Whether an argument is of the kind of an axis.
  private boolean isLike(Expression.Call call, int axis, Type type, int argument) {
    Expression other = call.arguments().get(argument);
    Optional<Type> kind = checker.kind(other).map(Type.Measure::new);
    if (kind.isPresent() && !kind.get().equals(type)) {
      findings.mismatch(Code.G204, call.arguments().get(axis), type, other, kind.get());
    }
    return kind.filter(type::equals).isPresent();
  }

  // All arguments but the last, which says where the line is read, are names.
  private Optional<Type> line(Expression.Call call, Type y, Type x) {
    List<String> names =
        IntStream.range(0, call.arguments().size() - 1).mapToObj(i -> name(call, i)).toList();
    findings.means(
        call,
        new PartMeaning.Line(
            findings.slot(new Demand(Aspect.LINE_MEAN_X, names, 0, x)),
            findings.slot(new Demand(Aspect.LINE_MEAN_Y, names, 0, y)),
            findings.slot(new Demand(Aspect.LINE_SLOPE, names, 0, Type.NUMBER))));
    return Optional.of(y);
  }

  // Not the characters of the text: there may be blanks around the dot.
  private static String name(Expression.Call call, int argument) {
    return ((Expression.Reference) call.arguments().get(argument)).name();
  }

  private Optional<Type> axis(Expression.Call call, int argument) {
    Expression axis = call.arguments().get(argument);
    if (!(axis instanceof Expression.Reference)) {
      findings.problem(
          axis.span(),
          Code.G213,
          call.function().text(),
          argument < ANCHOR_Y ? "a value of each stage" : "a value",
          "define it and use its name");
      return Optional.empty();
    }
    return checker.kind(axis).map(Type.Measure::new);
  }

  private Optional<Symbol.Datum> signal(Expression.Call call) {
    Optional<Symbol.Datum> signal = datum(call.arguments().get(0), Symbol.Role.SIGNAL);
    if (signal.isEmpty()) {
      String help = "signals are the readings of the measure list";
      findings.needsName(call, "a signal", is(Symbol.Role.SIGNAL), help);
    }
    return signal;
  }

  // Words have an earlier one, but no change, mean or highest.
  private Optional<Symbol.Datum> measure(Expression.Call call) {
    Optional<Symbol.Datum> signal = signal(call);
    boolean measured = signal.filter(datum -> datum.type() instanceof Type.Measure).isPresent();
    if (signal.isPresent() && !measured) {
      findings.problem(
          call.arguments().get(0).span(),
          Code.G208,
          signal.get().type().phrase(),
          "of a choice only earlier(...) can be asked");
    }
    return measured ? signal : Optional.empty();
  }

  private Optional<Symbol.Datum> datum(Expression part, Symbol.Role role) {
    return findings.symbol(part).filter(is(role)).map(Symbol.Datum.class::cast);
  }

  private static Predicate<Symbol> is(Symbol.Role role) {
    return symbol -> symbol instanceof Symbol.Datum datum && datum.role() == role;
  }

  // In whole milliseconds, so that one stretch of time is one demand in whatever unit it is given.
  private Optional<Double> stretch(Expression.Call call) {
    Expression argument = call.arguments().get(1);
    Optional<Double> seconds =
        findings
            .constant(argument)
            .filter(value -> value.kind() == Kind.TIME)
            .map(value -> Math.rint(value.base() * 1000) / 1000)
            .filter(time -> time > 0);
    if (seconds.isEmpty() && !findings.isFaulty(argument)) {
      findings.problem(argument.span(), Code.G214, call.function().text(), "a time above zero");
    }
    return seconds;
  }
}
