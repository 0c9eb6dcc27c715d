package org.gradus.history;

import java.time.Duration;
import java.time.ZonedDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;
import org.gradus.internal.json.JsonLimits;
import org.gradus.internal.json.JsonReader;
import org.gradus.internal.json.NotJson;
import org.gradus.session.Times;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * The fields of a line that was read, each of the shape it must have; else {@link Unreadable}.
 *
 * @param path the way to them, such as {@code event.verdict}; empty at the top of a line
 * @param content their values by name
 */
record Fields(String path, Map<?, ?> content) {

  private static final int LONGEST_TIME = 40;
  private static final int LONGEST_MOMENT = 100;
  private static final String WHOLE = "-?[0-9]{1,18}";

  // No more than records are made of.
  private static final JsonLimits LIMITS =
      new JsonLimits(16, Integer.MAX_VALUE, false, Fields::number);

  /** The fields of a line. */
  static Fields read(String line) {
    return of("", json(line));
  }

  /** What a text of JSON holds: a whole number is a {@link Long}, any other a {@link Double}. */
  static Object json(String text) {
    try {
      return JsonReader.read(text, LIMITS);
    } catch (NotJson problem) {
      throw new Unreadable("", "is no JSON: " + problem.getMessage());
    }
  }

  private static Object number(String text) {
    return text.matches(WHOLE) ? (Object) Long.valueOf(text) : (Object) Double.valueOf(text);
  }

  private static Fields of(String path, Object value) {
    if (value instanceof Map<?, ?> map) {
      return new Fields(path, map);
    }
    throw new Unreadable(path, "is " + Unreadable.shown(value) + ", not an object");
  }

  private String path(String name) {
    return path.isEmpty() || name.startsWith("[") ? path + name : path + "." + name;
  }

  /** The way to a field and what is wrong with it. */
  Unreadable unreadable(String name, String problem) {
    return new Unreadable(path(name), problem);
  }

  private Unreadable not(String name, String expected) {
    Object value = content.get(name);
    return value == null
        ? unreadable(name, "is missing")
        : unreadable(name, "is " + Unreadable.shown(value) + ", not " + expected);
  }

  /** The same fields, when there are no others than these. */
  Fields only(String... names) {
    List<String> known = List.of(names);
    for (Object name : content.keySet()) {
      if (!known.contains(name)) {
        throw unreadable(Unreadable.shown(name), "does not belong here");
      }
    }
    return this;
  }

  /** The names of all fields. */
  List<String> names() {
    return content.keySet().stream().map(String::valueOf).toList();
  }

  boolean has(String name) {
    return content.containsKey(name);
  }

  boolean isText(String name) {
    return content.get(name) instanceof String;
  }

  String text(String name) {
    if (content.get(name) instanceof String text) {
      return text;
    }
    throw not(name, "a text");
  }

  /** A text that a person wrote, with as many characters as it may have. */
  String text(String name, int longest) {
    String text = text(name);
    if (text.length() > longest) {
      throw unreadable(name, "has " + text.length() + " characters; at most " + longest);
    }
    return text;
  }

  Optional<String> maybeText(String name) {
    return has(name) ? Optional.of(text(name)) : Optional.empty();
  }

  int whole(String name) {
    if (content.get(name) instanceof Long number && number == number.intValue()) {
      return number.intValue();
    }
    throw not(name, "a whole number");
  }

  double finite(String name) {
    if (content.get(name) instanceof Number number && Double.isFinite(number.doubleValue())) {
      return number.doubleValue();
    }
    throw not(name, "a finite number");
  }

  boolean truth(String name) {
    if (content.get(name) instanceof Boolean truth) {
      return truth;
    }
    throw not(name, "true or false");
  }

  /** A time since the start of the session. */
  Duration time(String name) {
    String text = text(name, LONGEST_TIME);
    Duration time;
    try {
      time = Duration.parse(text);
    } catch (DateTimeParseException e) {
      throw not(name, "a time such as PT3M30S");
    }
    if (!Times.isPossible(time)) {
      throw not(name, "a time of a test");
    }
    return time;
  }

  /** A date and time with its zone. */
  ZonedDateTime moment(String name) {
    try {
      return ZonedDateTime.parse(text(name, LONGEST_MOMENT));
    } catch (DateTimeParseException e) {
      throw not(name, "a time with its zone such as 2026-05-03T10:15+02:00[Europe/Vienna]");
    }
  }

  /** How long something lasts each time. */
  Duration span(String name) {
    Duration span = time(name);
    if (span.compareTo(Duration.ofMillis(1)) < 0) {
      throw not(name, "at least a thousandth of a second");
    }
    return span;
  }

  Fields fields(String name) {
    if (content.get(name) instanceof Map<?, ?> map) {
      return new Fields(path(name), map);
    }
    throw not(name, "an object");
  }

  List<Fields> list(String name) {
    List<Fields> all = new ArrayList<>();
    for (Object item : items(name)) {
      all.add(of(path(name) + "[" + all.size() + "]", item));
    }
    return all;
  }

  /** The items of a list, each read as a field of its own. */
  <T> List<T> each(String name, BiFunction<Fields, String, T> read) {
    List<T> all = new ArrayList<>();
    for (Object item : items(name)) {
      String place = "[" + all.size() + "]";
      all.add(read.apply(new Fields(path(name), Map.of(place, item)), place));
    }
    return all;
  }

  private List<?> items(String name) {
    if (content.get(name) instanceof List<?> list) {
      return list;
    }
    throw not(name, "a list");
  }

  /** An amount with its unit, exactly as it was written. */
  Quantity quantity() {
    only("amount", "unit");
    String symbol = text("unit");
    Unit unit =
        symbol.isEmpty() ? Unit.ONE : Unit.named(symbol).orElseThrow(() -> not("unit", "a unit"));
    return Quantity.of(finite("amount"), unit);
  }

  /** An amount of the same kind as another. */
  Quantity quantityLike(Quantity other) {
    Quantity quantity = quantity();
    if (quantity.kind() != other.kind()) {
      throw not("unit", "a unit such as " + other.unit().symbol());
    }
    return quantity;
  }

  static Map<String, Object> of(Quantity quantity) {
    return Lines.map("amount", quantity.amount(), "unit", quantity.unit().symbol());
  }
}
