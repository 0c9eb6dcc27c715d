package org.gradus.history;

import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;

/**
 * One line of JSON. It is read by a YAML parser, of which JSON is a part, and written here: only
 * maps, lists, texts, numbers and truths occur.
 */
final class Json {

  private static final int MOST_CHARACTERS = 100_000;

  private Json() {}

  static String write(Object value) {
    StringBuilder out = new StringBuilder();
    write(value, out);
    return out.toString();
  }

  private static void write(Object value, StringBuilder out) {
    if (value instanceof Map<?, ?> map) {
      String separator = "{";
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        out.append(separator);
        text(entry.getKey().toString(), out);
        out.append(": ");
        write(entry.getValue(), out);
        separator = ", ";
      }
      out.append(map.isEmpty() ? "{}" : "}");
    } else if (value instanceof Collection<?> list) {
      String separator = "[";
      for (Object item : list) {
        out.append(separator);
        write(item, out);
        separator = ", ";
      }
      out.append(list.isEmpty() ? "[]" : "]");
    } else if (value instanceof Number || value instanceof Boolean) {
      out.append(value);
    } else {
      text(value.toString(), out);
    }
  }

  private static void text(String text, StringBuilder out) {
    out.append('"');
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      // Besides what JSON asks for: whatever YAML takes for a line break or does not print.
      boolean plain = c >= 0x20 && c != '"' && c != '\\' && c < 0x7F;
      out.append(plain ? Character.toString(c) : String.format(Locale.ROOT, "\\u%04x", (int) c));
    }
    out.append('"');
  }

  /** The content of a line; empty when it is no such line. */
  static Optional<Map<?, ?>> read(String line) {
    if (line.length() > MOST_CHARACTERS || !line.startsWith("{")) {
      return Optional.empty();
    }
    try {
      Object content = new Load(LoadSettings.builder().build()).loadFromString(line);
      return content instanceof Map<?, ?> map ? Optional.of(map) : Optional.empty();
    } catch (YamlEngineException e) {
      return Optional.empty();
    }
  }

  /** Signals that a line has the form but not the content of an event. */
  static JournalFailed unreadable(Object content) {
    return new JournalFailed(Code.G607, "line", "it says what no event says: " + content);
  }
}
