package org.gradus.history;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Reads one value of JSON (RFC 8259) in a single pass. It takes no more than what records are made
 * of: few levels, names that are given once, no {@code null}.
 */
final class JsonReader {

  private static final int MOST_LEVELS = 16;
  private static final int LONGEST_NUMBER = 40;
  private static final String NUMBER = "-?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][+-]?[0-9]+)?";
  private static final String WHOLE = "-?[0-9]{1,18}";

  private final String text;
  private int at;

  private JsonReader(String text) {
    this.text = text;
  }

  /**
   * The value that a text consists of: a {@link Map} with names in order, a {@link List}, a {@link
   * String}, a {@link Boolean}, a {@link Long} for a whole number and else a {@link Double}.
   *
   * @throws Unreadable that says at which character
   */
  static Object read(String text) {
    JsonReader reader = new JsonReader(text);
    Object value = reader.value(0);
    reader.blanks();
    if (reader.at < text.length()) {
      throw reader.unexpected("nothing more");
    }
    return value;
  }

  private Object value(int level) {
    blanks();
    char first = peek();
    if (level == MOST_LEVELS && (first == '{' || first == '[')) {
      throw unexpected("no more than " + MOST_LEVELS + " levels");
    }
    return switch (first) {
      case '{' -> object(level + 1);
      case '[' -> list(level + 1);
      case '"' -> string();
      case 't' -> word("true", true);
      case 'f' -> word("false", false);
      default -> number();
    };
  }

  private Map<String, Object> object(int level) {
    Map<String, Object> object = new LinkedHashMap<>();
    at++;
    if (ends('}')) {
      return object;
    }
    do {
      blanks();
      if (peek() != '"') {
        throw unexpected("a name in quotes");
      }
      String name = string();
      blanks();
      if (peek() != ':') {
        throw unexpected("a colon");
      }
      at++;
      if (object.put(name, value(level)) != null) {
        throw unexpected("no second value of " + shown(name));
      }
    } while (goesOn('}'));
    return object;
  }

  private List<Object> list(int level) {
    List<Object> list = new ArrayList<>();
    at++;
    if (ends(']')) {
      return list;
    }
    do {
      list.add(value(level));
    } while (goesOn(']'));
    return list;
  }

  private boolean ends(char end) {
    blanks();
    boolean ends = peek() == end;
    at += ends ? 1 : 0;
    return ends;
  }

  private boolean goesOn(char end) {
    blanks();
    char next = peek();
    if (next != ',' && next != end) {
      throw unexpected("a comma or " + end);
    }
    at++;
    return next == ',';
  }

  private String string() {
    StringBuilder string = new StringBuilder();
    at++;
    while (peek() != '"') {
      char c = text.charAt(at++);
      if (c < ' ') {
        throw unexpected("no control character in a text");
      }
      string.append(c == '\\' ? escaped() : c);
    }
    at++;
    return string.toString();
  }

  private char escaped() {
    char escape = peek();
    at++;
    return switch (escape) {
      case '"', '\\', '/' -> escape;
      case 'b' -> '\b';
      case 'f' -> '\f';
      case 'n' -> '\n';
      case 'r' -> '\r';
      case 't' -> '\t';
      case 'u' -> unicode();
      default -> throw unexpected("an escape of JSON");
    };
  }

  private char unicode() {
    int code = 0;
    for (int i = 0; i < 4; i++) {
      char c = peek();
      int digit = c < 0x80 ? Character.digit(c, 16) : -1;
      if (digit < 0) {
        throw unexpected("four hexadecimal digits");
      }
      code = code * 16 + digit;
      at++;
    }
    return (char) code;
  }

  private Object word(String word, Object value) {
    if (!text.startsWith(word, at)) {
      throw unexpected(word);
    }
    at += word.length();
    return value;
  }

  private Object number() {
    int start = at;
    while (at < text.length() && "+-.eE0123456789".indexOf(text.charAt(at)) >= 0) {
      at++;
    }
    String number = text.substring(start, Math.min(at, start + LONGEST_NUMBER));
    if (at - start > LONGEST_NUMBER || !number.matches(NUMBER)) {
      at = start;
      throw unexpected("a value");
    }
    if (number.matches(WHOLE)) {
      return Long.valueOf(number);
    }
    return Double.valueOf(number);
  }

  private void blanks() {
    while (at < text.length() && " \t\r\n".indexOf(text.charAt(at)) >= 0) {
      at++;
    }
  }

  private char peek() {
    if (at >= text.length()) {
      throw unexpected("more");
    }
    return text.charAt(at);
  }

  private Unreadable unexpected(String expected) {
    return new Unreadable("", "is no JSON: at character " + (at + 1) + " expected " + expected);
  }

  private static String shown(String text) {
    return text.substring(0, Math.min(LONGEST_NUMBER, text.length()));
  }
}
