package org.gradus.bundled;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;

/**
 * Puts check sums on the lines of a record, as somebody would who has changed it. Worked out here a
 * second time from what {@link org.gradus.history.TestRecord} says of them.
 */
final class Sealed {

  private Sealed() {}

  /** The lines, each an object without a sum, as the text of a record. */
  static String lines(List<String> lines) {
    StringBuilder text = new StringBuilder();
    String sum = "";
    for (String line : lines) {
      String body = line.isEmpty() ? "" : line.substring(0, line.length() - 1);
      sum = sha256(sum + body);
      text.append(body).append(", \"sum\": \"").append(sum).append("\"}\n");
    }
    return text.toString();
  }

  /** A line without its sum. */
  static String opened(String line) {
    return line.substring(0, line.lastIndexOf(", \"sum\"")) + "}";
  }

  /** A record of the resources, sealed. */
  static String resource(String name) {
    try (InputStream stream =
        Objects.requireNonNull(Sealed.class.getResourceAsStream("records/" + name), name)) {
      return lines(new String(stream.readAllBytes(), UTF_8).lines().toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String sha256(String text) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(digest.digest(text.getBytes(UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
