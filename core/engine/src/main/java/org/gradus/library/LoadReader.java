package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.library.StageDraft.LoadDraft;
import org.gradus.library.StageDraft.RampDraft;
import org.gradus.library.YamlNode.Mapping;
import org.gradus.library.YamlNode.Scalar;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Arithmetic;
import org.gradus.rule.syntax.Expression.Literal;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Reads what makes up the load of a stage. */
final class LoadReader {

  private final ScalarParser texts;

  LoadReader(ScalarParser texts) {
    this.texts = texts;
  }

  /** The load of a stage; each component a value, or a ramp. */
  List<LoadDraft> loads(Keys keys) {
    return components(
        keys,
        (name, unit, value) -> new LoadDraft(name, unit, value, Optional.empty()),
        this::ramp);
  }

  /** The load of a series of stages; each component a value, or steps from stage to stage. */
  List<Flight> flights(Keys keys) {
    return components(
        keys, (name, unit, value) -> new Flight(name, unit, value, Optional.empty()), this::flight);
  }

  /** A component that may rise from stage to stage. */
  record Flight(String name, Unit unit, Expression from, Optional<Expression> step) {

    /** What it is in a stage, counted from 0. */
    LoadDraft in(int stage) {
      Expression value = step.map(rise -> climbed(from, rise, stage)).orElse(from);
      return new LoadDraft(name, unit, value, Optional.empty());
    }
  }

  private interface Component<V, T> {
    T of(String name, Unit unit, V content);
  }

  private <T> List<T> components(
      Keys keys, Component<Expression, T> plain, Component<Keys, Optional<T>> changing) {
    List<T> loads = new ArrayList<>();
    texts
        .equipment()
        .units()
        .forEach(
            (name, unit) ->
                keys.take(name)
                    .flatMap(
                        node ->
                            node instanceof Mapping
                                ? Keys.of(node, "a changing " + name, texts.problems())
                                    .flatMap(inner -> changing.of(name, unit, inner))
                                : keys.scalar(node, name)
                                    .flatMap(text -> value(name, unit, text))
                                    .map(value -> plain.of(name, unit, value)))
                    .ifPresent(loads::add));
    keys.text("load")
        .filter(word -> !word.value().strip().equals("none"))
        .ifPresent(
            word ->
                texts.notA(
                    word,
                    "none",
                    "load says only that there is none; name what is set, such as speed: 5 km/h"
                        + " or power: 50 W"));
    return loads;
  }

  private Optional<LoadDraft> ramp(String name, Unit unit, Keys keys) {
    Optional<Expression> from = keys.needText("from").flatMap(text -> value(name, unit, text));
    Optional<Expression> step = keys.needText("step").flatMap(text -> value(name, unit, text));
    Optional<Duration> every = keys.needText("every").flatMap(texts::stretch);
    Optional<Expression> to = keys.needText("to").flatMap(text -> value(name, unit, text));
    keys.done();
    return from.isPresent() && step.isPresent() && every.isPresent() && to.isPresent()
        ? Optional.of(
            new LoadDraft(
                name,
                unit,
                from.get(),
                Optional.of(new RampDraft(step.get(), every.get(), to.get()))))
        : Optional.empty();
  }

  private Optional<Flight> flight(String name, Unit unit, Keys keys) {
    Optional<Expression> from = keys.needText("from").flatMap(text -> value(name, unit, text));
    Optional<Expression> step = keys.needText("step").flatMap(text -> value(name, unit, text));
    keys.done();
    return step.isPresent()
        ? from.map(first -> new Flight(name, unit, first, step))
        : Optional.empty();
  }

  // Written out where both are figures, so that the stage shows its load as a file would write it.
  private static Expression climbed(Expression from, Expression step, int stage) {
    if (from instanceof Literal start
        && step instanceof Literal rise
        && start.quantity().unit() == rise.quantity().unit()) {
      double amount = start.quantity().amount() + stage * rise.quantity().amount();
      return new Literal(start.span(), Quantity.of(amount, start.quantity().unit()));
    }
    Literal times = new Literal(step.span(), Quantity.of(stage, Unit.ONE));
    Expression further = new Arithmetic(step.span(), Operator.TIMES, times, step);
    return new Arithmetic(from.span(), Operator.PLUS, from, further);
  }

  /** Whether it is the load of a stage of a series, worked out: nobody wrote it that way. */
  static boolean isClimbed(Expression load) {
    return load instanceof Arithmetic sum && sum.span().equals(sum.left().span());
  }

  private Optional<Expression> value(String name, Unit unit, Scalar text) {
    Optional<Expression> value = texts.expression(text);
    if (unit == Unit.PERCENT && value.filter(LoadReader::isBareShare).isPresent()) {
      texts.notA(
          text,
          "a " + name + " in %",
          "write " + text.value().strip() + " %, or 100 times that if it was a fraction");
      return Optional.empty();
    }
    return value;
  }

  // Whether it comes to a number that is written without a %, which could be meant either way.
  private static boolean isBareShare(Expression value) {
    if (value instanceof Literal literal) {
      return literal.quantity().kind() == Kind.NUMBER && literal.quantity().unit() != Unit.PERCENT;
    } else if (value instanceof Expression.Negation negation) {
      return isBareShare(negation.operand());
    } else if (value instanceof Expression.Choice choice) {
      return isBareShare(choice.whenTrue()) || isBareShare(choice.whenFalse());
    }
    return false;
  }
}
