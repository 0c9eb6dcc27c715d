package org.gradus.examples.workbench;

import java.util.Iterator;
import java.util.List;
import java.util.Map;

/** Writes values as JSON: maps, lists, texts, numbers, yes and no. */
final class Json {

  private Json() {}

  static String of(Object value) {
    StringBuilder out = new StringBuilder();
    write(value, out);
    return out.toString();
  }

  private static void write(Object value, StringBuilder out) {
    if (value instanceof Map<?, ?> map) {
      out.append('{');
      for (Iterator<? extends Map.Entry<?, ?>> all = map.entrySet().iterator(); all.hasNext(); ) {
        Map.Entry<?, ?> entry = all.next();
        text(String.valueOf(entry.getKey()), out);
        out.append(':');
        write(entry.getValue(), out);
        out.append(all.hasNext() ? "," : "");
      }
      out.append('}');
    } else if (value instanceof List<?> list) {
      out.append('[');
      for (Iterator<?> all = list.iterator(); all.hasNext(); ) {
        write(all.next(), out);
        out.append(all.hasNext() ? "," : "");
      }
      out.append(']');
    } else if (value instanceof Double number && !Double.isFinite(number)) {
      out.append("null");
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
      switch (c) {
        case '"' -> out.append("\\\"");
        case '\\' -> out.append("\\\\");
        case '\n' -> out.append("\\n");
        default -> {
          if (c < ' ') {
            out.append(String.format("\\u%04x", (int) c));
          } else {
            out.append(c);
          }
        }
      }
    }
    out.append('"');
  }
}
