package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.gradus.knowledge.Citation;
import org.gradus.unit.Quantity;

/** Names with their values, for programs: always in the order in which they are given. */
final class Named {

  private Named() {}

  /** Names and values in turn. */
  static Map<String, Object> values(Object... namesAndValues) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i + 1 < namesAndValues.length; i += 2) {
      map.put(namesAndValues[i].toString(), namesAndValues[i + 1]);
    }
    return map;
  }

  static <T> List<Map<String, Object>> list(
      Iterable<T> items, Function<T, Map<String, Object>> form) {
    List<Map<String, Object>> list = new ArrayList<>();
    items.forEach(item -> list.add(form.apply(item)));
    return list;
  }

  /** An amount beside its unit, which is empty for a bare number. */
  static Map<String, Object> quantity(Quantity quantity) {
    return values("amount", quantity.amount(), "unit", quantity.unit().symbol());
  }

  static Map<String, Object> source(Citation source) {
    return values("key", source.key(), "text", source.text());
  }

  /** With the source behind all else; it is missing rather than empty where none is named. */
  static Map<String, Object> sourced(Map<String, Object> map, Citation source) {
    Map<String, Object> sourced = new LinkedHashMap<>(map);
    if (source.isNamed()) {
      sourced.put("source", source(source));
    }
    return sourced;
  }

  /** A text is missing rather than empty. */
  static void put(Map<String, Object> map, String name, String text) {
    if (!text.isEmpty()) {
      map.put(name, text);
    }
  }

  static String word(Enum<?> one) {
    return one.name().toLowerCase(Locale.ROOT);
  }
}
