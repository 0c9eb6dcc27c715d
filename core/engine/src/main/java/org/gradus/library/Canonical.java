package org.gradus.library;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.rule.check.Table;
import org.gradus.rule.syntax.Action;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Selection;
import org.gradus.rule.syntax.Sentence;
import org.gradus.unit.Quantity;
import org.gradus.unit.QuantityRange;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/**
 * Values and sentences as canonical texts: equal for what means the same, without places in files,
 * and the same on every Java platform. A kind of value that has no canonical text is an error of
 * the program.
 */
final class Canonical {

  private Canonical() {}

  /** Several values as one text, in their order; an optional one that is empty keeps its place. */
  static String text(Object... values) {
    return joined(List.of(values));
  }

  // The length before each part, so that no two lists run together alike.
  private static String joined(List<?> values) {
    StringBuilder all = new StringBuilder("(");
    for (Object value : values) {
      String part = one(value);
      all.append(part.length()).append(':').append(part);
    }
    return all.append(')').toString();
  }

  private static String one(Object value) {
    if (value instanceof String text) {
      return text;
    } else if (value instanceof Number || value instanceof Boolean) {
      return value instanceof Double number ? number(number) : value.toString();
    } else if (value instanceof Enum<?> constant) {
      return constant instanceof Unit unit ? unit.symbol() : constant.name();
    } else if (value instanceof Duration time) {
      return number(time.toNanos() / 1e9) + " s";
    } else if (value instanceof Optional<?> maybe) {
      return maybe.map(Canonical::text).orElse("none");
    } else if (value instanceof OptionalInt maybe) {
      return maybe.isPresent() ? text(maybe.getAsInt()) : "none";
    } else if (value instanceof List<?> list) {
      return joined(list);
    } else if (value instanceof Quantity quantity) {
      return number(quantity.amount()) + " " + quantity.unit().symbol();
    } else if (value instanceof QuantityRange range) {
      return text(range.low(), range.high());
    } else if (value instanceof Type type) {
      return type(type);
    } else if (value instanceof Expression expression) {
      return expression(expression);
    } else if (value instanceof Sentence sentence) {
      return text(sentence.action().accept(new Deed()), sentence.when());
    } else if (value instanceof Selection selection) {
      return selection(selection);
    } else if (value instanceof Table.Point point) {
      return text(point.x(), point.y());
    }
    throw new IllegalStateException("no canonical text for " + value.getClass());
  }

  // Exactly what the number is; how short a decimal can be chosen differs between platforms.
  private static String number(double number) {
    return number == 0 ? "0" : new BigDecimal(number).stripTrailingZeros().toString();
  }

  private static String type(Type type) {
    return type.match(
        measure -> text("measure", measure.kind()),
        condition -> text("condition"),
        choice -> text("choice", choice.options()));
  }

  /** A condition or a value: the word for what it is, what belongs to it, and its parts. */
  private static String expression(Expression expression) {
    List<Object> all = new ArrayList<>(List.of(expression.accept(new Head())));
    all.addAll(expression.parts());
    return joined(all);
  }

  private static String selection(Selection selection) {
    return selection.match(
        end -> text("of the end", end.last(), end.count(), end.term().map(Expression.Name::text)),
        all -> text("all", all.term().map(Expression.Name::text), all.atLeast()),
        one -> text("one", one.stage().text()),
        moment -> text("moment", moment.name().text()));
  }

  /** The word for what an expression is, with what belongs to it beside its parts. */
  private static final class Head implements Expression.Visitor<String> {

    @Override
    public String choice(Expression.Choice choice) {
      return "if";
    }

    @Override
    public String or(Expression.Or or) {
      return "or";
    }

    @Override
    public String and(Expression.And and) {
      return "and";
    }

    @Override
    public String not(Expression.Not not) {
      return "not";
    }

    @Override
    public String comparison(Expression.Comparison comparison) {
      return text("compare", comparison.relation());
    }

    @Override
    public String between(Expression.Between between) {
      return "between";
    }

    @Override
    public String is(Expression.Is is) {
      return text("is", is.negated(), is.option().text());
    }

    @Override
    public String arithmetic(Expression.Arithmetic arithmetic) {
      return text("arithmetic", arithmetic.operator());
    }

    @Override
    public String negation(Expression.Negation negation) {
      return "minus";
    }

    @Override
    public String share(Expression.Share share) {
      return "of";
    }

    @Override
    public String power(Expression.Power power) {
      return "power";
    }

    @Override
    public String inUnit(Expression.InUnit in) {
      return text("in", in.unit().unit());
    }

    @Override
    public String asUnit(Expression.AsUnit as) {
      return text("as", as.unit().unit());
    }

    @Override
    public String literal(Expression.Literal literal) {
      return text("figure", literal.quantity());
    }

    @Override
    public String call(Expression.Call call) {
      return text("call", call.function().text());
    }

    @Override
    public String reference(Expression.Reference reference) {
      return text("name", reference.name());
    }
  }

  /** An action with its figures. */
  private static final class Deed implements Action.Visitor<String> {

    @Override
    public String stop(Action.Stop action) {
      return text(action.word());
    }

    @Override
    public String finish(Action.Finish action) {
      return text(action.word());
    }

    @Override
    public String hold(Action.Hold action) {
      return text(action.word(), action.longer(), action.times());
    }

    @Override
    public String change(Action.Change action) {
      return text(action.word(), action.load().text(), action.by(), action.times());
    }

    @Override
    public String advance(Action.Advance action) {
      return text(action.word(), action.to().map(Expression.Name::text));
    }

    @Override
    public String offer(Action.Offer action) {
      return text(action.word(), action.offered().accept(this));
    }

    @Override
    public String caution(Action.Caution action) {
      return text(action.word());
    }

    @Override
    public String defer(Action.Defer action) {
      return text(action.word());
    }

    @Override
    public String startAt(Action.StartAt action) {
      return text(action.word(), action.stage().text());
    }

    @Override
    public String end(Action.End action) {
      return text(action.word());
    }
  }
}
