package org.gradus.history;

import java.time.Duration;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** The fields of a line that was read, each of the shape it must have. */
record Fields(Map<?, ?> content) {

  static Fields of(Object value) {
    if (value instanceof Map<?, ?> map) {
      return new Fields(map);
    }
    throw Json.unreadable(value);
  }

  boolean has(String name) {
    return content.containsKey(name);
  }

  private Object need(String name) {
    Object value = content.get(name);
    if (value == null) {
      throw Json.unreadable(content);
    }
    return value;
  }

  String text(String name) {
    if (need(name) instanceof String text) {
      return text;
    }
    throw Json.unreadable(content);
  }

  Optional<String> maybeText(String name) {
    return has(name) ? Optional.of(text(name)) : Optional.empty();
  }

  int whole(String name) {
    if (need(name) instanceof Integer number) {
      return number;
    }
    throw Json.unreadable(content);
  }

  boolean truth(String name) {
    if (need(name) instanceof Boolean truth) {
      return truth;
    }
    throw Json.unreadable(content);
  }

  Duration time(String name) {
    try {
      return Duration.parse(text(name));
    } catch (DateTimeParseException e) {
      throw Json.unreadable(content);
    }
  }

  Fields fields(String name) {
    return of(need(name));
  }

  List<Fields> list(String name) {
    if (need(name) instanceof List<?> list) {
      return list.stream().map(Fields::of).toList();
    }
    throw Json.unreadable(content);
  }

  List<String> texts(String name) {
    if (need(name) instanceof List<?> list) {
      return list.stream().map(String::valueOf).toList();
    }
    throw Json.unreadable(content);
  }

  /** An amount with its unit, exactly as it was written. */
  Quantity quantity() {
    Object amount = need("amount");
    String symbol = text("unit");
    Unit unit =
        symbol.isEmpty()
            ? Unit.ONE
            : Unit.named(symbol).orElseThrow(() -> Json.unreadable(content));
    if (amount instanceof Number number && Double.isFinite(number.doubleValue())) {
      return Quantity.of(number.doubleValue(), unit);
    }
    throw Json.unreadable(content);
  }

  static Map<String, Object> of(Quantity quantity) {
    return Lines.map("amount", quantity.amount(), "unit", quantity.unit().symbol());
  }
}
