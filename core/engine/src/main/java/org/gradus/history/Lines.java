package org.gradus.history;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * Lines that carry a check sum of themselves and of the line before, so that a damaged one is known
 * and none can be taken out, put in or exchanged unnoticed between two others.
 */
final class Lines {

  /** What stands in place of the sum of a line before the first. */
  static final String FIRST = "";

  static final String SUM = "sum";

  /** More characters than any event takes that a session takes in. */
  static final int LONGEST = 16_000_000;

  private static final String MARK = ", \"" + SUM + "\": \"";
  private static final String END = "\"}";

  private Lines() {}

  /** A line with its sum behind a line of the sum given, without a line break. */
  static String sealed(Map<String, Object> fields, String before) {
    String open = Json.write(fields);
    String body = open.substring(0, open.length() - 1);
    return body + MARK + sum(body, before) + END;
  }

  /** Whether a line is as it was written, behind a line of the sum given. */
  static boolean isSound(String line, String before) {
    int mark = line.lastIndexOf(MARK);
    if (mark < 0) {
      return false;
    }
    String body = line.substring(0, mark);
    return line.equals(body + MARK + sum(body, before) + END);
  }

  /** The sum that a line carries. */
  static String sum(String line) {
    return line.substring(line.lastIndexOf(MARK) + MARK.length(), line.length() - END.length());
  }

  /** The sum that a line carries, of a text that may be no line of a record. */
  static Optional<String> sumOf(String text) {
    int mark = text.lastIndexOf(MARK);
    return mark >= 0
            && text.endsWith(END)
            && text.length() == mark + MARK.length() + 64 + END.length()
        ? Optional.of(sum(text))
        : Optional.empty();
  }

  private static String sum(String body, String before) {
    byte[] bytes = (before + body).getBytes(StandardCharsets.UTF_8);
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }

  /** Names and values in turn, in this order. */
  static Map<String, Object> map(Object... namesAndValues) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < namesAndValues.length; i += 2) {
      map.put(namesAndValues[i].toString(), namesAndValues[i + 1]);
    }
    return map;
  }
}
