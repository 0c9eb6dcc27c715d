package org.gradus.history;

import java.time.Duration;
import java.time.format.DateTimeParseException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/** The fields of a line that was read, each of the shape it must have. */
record Fields(Map<?, ?> content) {

  private static final int MOST_CHARACTERS = 100_000;

  /**
   * The fields of a line, read by a YAML parser, of which JSON is a part; empty when there are
   * none.
   */
  static Optional<Fields> read(String line) {
    if (line.length() > MOST_CHARACTERS || !line.startsWith("{")) {
      return Optional.empty();
    }
    try {
      Object content = new Load(LoadSettings.builder().build()).loadFromString(line);
      return content instanceof Map<?, ?> map ? Optional.of(new Fields(map)) : Optional.empty();
    } catch (YamlEngineException e) {
      return Optional.empty();
    }
  }

  /** Signals that a line has the form but not the content of an event. */
  static JournalFailed unreadable(Object content) {
    return new JournalFailed(Code.G607, "line", "it says what no event says: " + content);
  }

  static Fields of(Object value) {
    if (value instanceof Map<?, ?> map) {
      return new Fields(map);
    }
    throw unreadable(value);
  }

  boolean has(String name) {
    return content.containsKey(name);
  }

  private Object need(String name) {
    Object value = content.get(name);
    if (value == null) {
      throw unreadable(content);
    }
    return value;
  }

  String text(String name) {
    if (need(name) instanceof String text) {
      return text;
    }
    throw unreadable(content);
  }

  Optional<String> maybeText(String name) {
    return has(name) ? Optional.of(text(name)) : Optional.empty();
  }

  int whole(String name) {
    if (need(name) instanceof Integer number) {
      return number;
    }
    throw unreadable(content);
  }

  boolean truth(String name) {
    if (need(name) instanceof Boolean truth) {
      return truth;
    }
    throw unreadable(content);
  }

  Duration time(String name) {
    try {
      return Duration.parse(text(name));
    } catch (DateTimeParseException e) {
      throw unreadable(content);
    }
  }

  Fields fields(String name) {
    return of(need(name));
  }

  List<Fields> list(String name) {
    if (need(name) instanceof List<?> list) {
      return list.stream().map(Fields::of).toList();
    }
    throw unreadable(content);
  }

  List<String> texts(String name) {
    if (need(name) instanceof List<?> list) {
      return list.stream().map(String::valueOf).toList();
    }
    throw unreadable(content);
  }

  /** An amount with its unit, exactly as it was written. */
  Quantity quantity() {
    Object amount = need("amount");
    String symbol = text("unit");
    Unit unit =
        symbol.isEmpty() ? Unit.ONE : Unit.named(symbol).orElseThrow(() -> unreadable(content));
    if (amount instanceof Number number && Double.isFinite(number.doubleValue())) {
      return Quantity.of(number.doubleValue(), unit);
    }
    throw unreadable(content);
  }

  static Map<String, Object> of(Quantity quantity) {
    return Lines.map("amount", quantity.amount(), "unit", quantity.unit().symbol());
  }
}
