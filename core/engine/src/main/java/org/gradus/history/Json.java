package org.gradus.history;

import java.util.Collection;
import java.util.Locale;
import java.util.Map;

/**
 * Writes JSON: the one line of a record, and whatever else a host wants to hand on to a program.
 *
 * <pre>{@code
 * Json.write(Map.of("stages", List.of("up_1", "up_2")));   // {"stages": ["up_1", "up_2"]}
 * }</pre>
 *
 * <p>The form is that of RFC 8259, written so that a parser of YAML 1.2 reads the same out of it:
 * on one line, with a blank after each colon and comma, and with every character outside ASCII as
 * {@code \}{@code uXXXX}. YAML has no names of more than 1024 characters; JSON has.
 */
public final class Json {

  private Json() {}

  /**
   * A value as JSON.
   *
   * <p>A map becomes an object, in the order of the map and with the text of each key as a name; a
   * collection becomes an array. Numbers and truths stand as they are, a number that is not finite
   * as {@code null}, since JSON has no word for it. Anything else becomes a string: its {@link
   * Object#toString}.
   *
   * @param value the value; nothing in it is null, and no map or collection holds itself
   * @return one line without a line break
   */
  public static String write(Object value) {
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
    } else if (isNoNumber(value)) {
      out.append("null");
    } else if (value instanceof Number || value instanceof Boolean) {
      out.append(value);
    } else {
      text(value.toString(), out);
    }
  }

  private static boolean isNoNumber(Object value) {
    return (value instanceof Double wide && !Double.isFinite(wide))
        || (value instanceof Float narrow && !Float.isFinite(narrow));
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
}
