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
import org.gradus.unit.Kind;
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
      return text(action(sentence.action()), sentence.when());
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
    if (type instanceof Type.Measure measure) {
      Kind kind = measure.kind();
      return text("measure", kind);
    }
    return type instanceof Type.Choice choice
        ? text("choice", choice.options())
        : text("condition");
  }

  /** A condition or a value: the word for what it is, what belongs to it, and its parts. */
  private static String expression(Expression expression) {
    List<Object> all = new ArrayList<>(List.of(head(expression)));
    all.addAll(expression.parts());
    return joined(all);
  }

  private static String head(Expression expression) {
    if (expression instanceof Expression.Literal literal) {
      return text("figure", literal.quantity());
    } else if (expression instanceof Expression.Reference reference) {
      return text("name", reference.name());
    } else if (expression instanceof Expression.Call call) {
      return text("call", call.function().text());
    } else if (expression instanceof Expression.Comparison comparison) {
      return text("compare", comparison.relation());
    } else if (expression instanceof Expression.Is is) {
      return text("is", is.negated(), is.option().text());
    } else if (expression instanceof Expression.Arithmetic arithmetic) {
      return text("arithmetic", arithmetic.operator());
    } else if (expression instanceof Expression.InUnit in) {
      return text("in", in.unit().unit());
    } else if (expression instanceof Expression.AsUnit as) {
      return text("as", as.unit().unit());
    } else if (expression instanceof Expression.Choice) {
      return "if";
    } else if (expression instanceof Expression.Or) {
      return "or";
    } else if (expression instanceof Expression.And) {
      return "and";
    } else if (expression instanceof Expression.Not) {
      return "not";
    } else if (expression instanceof Expression.Between) {
      return "between";
    } else if (expression instanceof Expression.Negation) {
      return "minus";
    } else if (expression instanceof Expression.Share) {
      return "of";
    } else if (expression instanceof Expression.Power) {
      return "power";
    }
    throw new IllegalStateException("no canonical text for " + expression.getClass());
  }

  private static String action(Action action) {
    if (action instanceof Action.Hold hold) {
      return text(action.word(), hold.longer(), hold.times());
    } else if (action instanceof Action.Change change) {
      return text(action.word(), change.load().text(), change.by(), change.times());
    } else if (action instanceof Action.Advance advance) {
      return text(action.word(), advance.to().map(Expression.Name::text));
    } else if (action instanceof Action.Offer offer) {
      return text(action.word(), action(offer.offered()));
    } else if (action instanceof Action.StartAt start) {
      return text(action.word(), start.stage().text());
    }
    return text(action.word());
  }

  private static String selection(Selection selection) {
    if (selection instanceof Selection.FromEnd end) {
      return text("of the end", end.last(), end.count(), end.term().map(Expression.Name::text));
    } else if (selection instanceof Selection.All all) {
      return text("all", all.term().map(Expression.Name::text), all.atLeast());
    } else if (selection instanceof Selection.One one) {
      return text("one", one.stage().text());
    } else if (selection instanceof Selection.Moment moment) {
      return text("moment", moment.name().text());
    }
    throw new IllegalStateException("no canonical text for " + selection.getClass());
  }
}
