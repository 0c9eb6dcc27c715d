package org.gradus.examples.quickstart;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A mapping of the recording, with an error in words where something is missing or of another
 * shape.
 */
record Entry(Map<?, ?> content) {

  static Entry of(@Nullable Object value) {
    if (value instanceof Map<?, ?> map) {
      return new Entry(map);
    }
    throw new IllegalArgumentException("expected keys with values, found " + value);
  }

  boolean has(String key) {
    return content.containsKey(key);
  }

  List<String> keys() {
    return content.keySet().stream().map(String::valueOf).toList();
  }

  private Object need(String key) {
    return Optional.<Object>ofNullable(content.get(key))
        .orElseThrow(
            () -> new IllegalArgumentException("the recording has no " + key + " in " + content));
  }

  String text(String key) {
    return need(key).toString();
  }

  double number(String key) {
    if (need(key) instanceof Number number) {
      return number.doubleValue();
    }
    throw new IllegalArgumentException(key + " is no number: " + need(key));
  }

  // YAML 1.2 leaves yes and no as words.
  boolean yes(String key) {
    return switch (text(key)) {
      case "yes" -> true;
      case "no" -> false;
      default -> throw new IllegalArgumentException(key + " is neither yes nor no: " + need(key));
    };
  }

  Entry entry(String key) {
    return of(need(key));
  }

  List<Entry> list(String key) {
    if (need(key) instanceof List<?> list) {
      return list.stream().map(Entry::of).toList();
    }
    throw new IllegalArgumentException(key + " is no list: " + need(key));
  }
}
