package org.gradus.history;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.zip.CRC32;

/** Lines that carry a check of themselves, so that a damaged one is known. */
final class Lines {

  private static final String MARK = ", \"crc\": \"";

  private Lines() {}

  /** A line with its check, without a line break. */
  static String sealed(Map<String, Object> fields) {
    String open = Json.write(fields);
    String body = open.substring(0, open.length() - 1);
    return body + MARK + crc(body) + "\"}";
  }

  /** The fields of a line; empty when it is damaged. */
  static Optional<Fields> open(String line) {
    int mark = line.lastIndexOf(MARK);
    if (mark < 0) {
      return Optional.empty();
    }
    String body = line.substring(0, mark);
    boolean whole = line.equals(body + MARK + crc(body) + "\"}");
    return whole ? Fields.read(line) : Optional.empty();
  }

  private static String crc(String text) {
    CRC32 crc = new CRC32();
    crc.update(text.getBytes(StandardCharsets.UTF_8));
    return String.format(Locale.ROOT, "%08x", crc.getValue());
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
