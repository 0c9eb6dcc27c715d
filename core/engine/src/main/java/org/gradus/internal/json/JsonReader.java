package org.gradus.internal.json;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * Reads one value of JSON (RFC 8259) in a single pass, within limits: names are given once, and of
 * levels, characters and digits there are no more than {@link JsonLimits} allow.
 */
public final class JsonReader {

  /** What stands for {@code null}. */
  public static final Object NULL = new Object();

  private static final int LONGEST_NUMBER = 40;
  // An exponent of more digits would take no time to write, and all memory to use.
  private static final Pattern NUMBER =
      Pattern.compile("-?(0|[1-9][0-9]*)(\\.[0-9]+)?([eE][+-]?[0-9]{1,4})?");

  private final JsonLimits limits;
  private final String text;
  private int at;

  private JsonReader(String text, JsonLimits limits) {
    this.text = text;
    this.limits = limits;
  }

  /**
   * The value that a text consists of: a {@link Map} with names in order, a {@link List}, a {@link
   * String}, a {@link Boolean}, {@link #NULL}, or what the limits make of a number.
   *
   * @throws NotJson that says at which character
   */
  public static Object read(String text, JsonLimits limits) {
    if (text.length() > limits.characters()) {
      throw new NotJson("it has more than " + limits.characters() + " characters");
    }
    JsonReader reader = new JsonReader(text, limits);
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
    if (level == limits.levels() && (first == '{' || first == '[')) {
      throw unexpected("no more than " + limits.levels() + " levels");
    }
    return switch (first) {
      case '{' -> object(level + 1);
      case '[' -> list(level + 1);
      case '"' -> string();
      case 't' -> word("true", true);
      case 'f' -> word("false", false);
      case 'n' -> limits.takesNull() ? word("null", NULL) : number();
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
    if (at - start > LONGEST_NUMBER || !NUMBER.matcher(number).matches()) {
      at = start;
      throw unexpected("a value");
    }
    return limits.number().apply(number);
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

  private NotJson unexpected(String expected) {
    return new NotJson("at character " + (at + 1) + " expected " + expected);
  }

  private static String shown(String text) {
    return text.substring(0, Math.min(LONGEST_NUMBER, text.length()));
  }
}
