package org.gradus.exchange.fhir;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads JSON (RFC 8259) from elsewhere. The reader of records is stricter: it takes no null and few
 * levels, which other systems may send.
 */
final class JsonText {

  /** What stands for null. */
  static final Object NULL = new Object();

  private static final int MOST_LEVELS = 64;
  private static final int MOST_CHARACTERS = 50_000_000;
  private static final Pattern NUMBER =
      Pattern.compile("-?(0|[1-9][0-9]{0,30})(\\.[0-9]{1,30})?([eE][+-]?[0-9]{1,3})?");

  private final String text;
  private int at;

  private JsonText(String text) {
    this.text = text;
  }

  /**
   * A value: a map, a list, a String, a BigDecimal, a Boolean or {@link #NULL}.
   *
   * @throws IllegalArgumentException that says at which character the text is no JSON
   */
  static Object read(String text) {
    if (text.length() > MOST_CHARACTERS) {
      throw new IllegalArgumentException("it has more than " + MOST_CHARACTERS + " characters");
    }
    JsonText reader = new JsonText(text);
    Object value = reader.value(0);
    reader.blanks();
    if (reader.at < text.length()) {
      throw reader.expected("the end");
    }
    return value;
  }

  private Object value(int level) {
    if (level > MOST_LEVELS) {
      throw expected("at most " + MOST_LEVELS + " levels");
    }
    blanks();
    return switch (peek()) {
      case '{' -> object(level + 1);
      case '[' -> list(level + 1);
      case '"' -> string();
      case 't' -> word("true", true);
      case 'f' -> word("false", false);
      case 'n' -> word("null", NULL);
      default -> number();
    };
  }

  private Map<String, Object> object(int level) {
    Map<String, Object> object = new LinkedHashMap<>();
    for (boolean more = opens('}'); more; more = continues('}')) {
      blanks();
      String name = string();
      blanks();
      take(':');
      if (object.put(name, value(level)) != null) {
        throw expected("each name once");
      }
    }
    return object;
  }

  private List<Object> list(int level) {
    List<Object> list = new ArrayList<>();
    for (boolean more = opens(']'); more; more = continues(']')) {
      list.add(value(level));
    }
    return list;
  }

  private boolean opens(char end) {
    at++;
    blanks();
    boolean more = peek() != end;
    at += more ? 0 : 1;
    return more;
  }

  private boolean continues(char end) {
    blanks();
    boolean more = peek() == ',';
    take(more ? ',' : end);
    return more;
  }

  private void take(char wanted) {
    if (peek() != wanted) {
      throw expected(Character.toString(wanted));
    }
    at++;
  }

  private String string() {
    take('"');
    StringBuilder string = new StringBuilder();
    while (peek() != '"') {
      char next = text.charAt(at++);
      if (next < ' ') {
        throw expected("no control character in a text");
      }
      string.append(next == '\\' ? escaped() : next);
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
      default -> throw expected("an escape");
    };
  }

  private char unicode() {
    if (at + 4 > text.length() || !text.substring(at, at + 4).matches("[0-9a-fA-F]{4}")) {
      throw expected("four hexadecimal digits");
    }
    at += 4;
    return (char) Integer.parseInt(text.substring(at - 4, at), 16);
  }

  private Object word(String word, Object value) {
    if (!text.startsWith(word, at)) {
      throw expected(word);
    }
    at += word.length();
    return value;
  }

  private BigDecimal number() {
    Matcher number = NUMBER.matcher(text).region(at, text.length());
    if (!number.lookingAt()) {
      throw expected("a value");
    }
    at = number.end();
    return new BigDecimal(number.group());
  }

  private void blanks() {
    while (at < text.length() && " \t\r\n".indexOf(text.charAt(at)) >= 0) {
      at++;
    }
  }

  private char peek() {
    if (at >= text.length()) {
      throw expected("more");
    }
    return text.charAt(at);
  }

  private IllegalArgumentException expected(String what) {
    return new IllegalArgumentException("at character " + (at + 1) + " expected " + what);
  }
}
