package org.gradus.exchange.device;

/** Reads the numbers of a payload one after the other, little end first. */
final class PayloadReader {

  private final String what;
  private final byte[] payload;
  private int at;

  PayloadReader(String what, byte[] payload) {
    this.what = what;
    this.payload = payload;
  }

  /** A number of so many bytes without sign. */
  int unsigned(int width, String field) {
    if (left() < width) {
      throw refused("ends at byte " + payload.length + ", within " + field);
    }
    int number = 0;
    for (int i = 0; i < width; i++) {
      number |= (payload[at++] & 0xFF) << (8 * i);
    }
    return number;
  }

  /** A number of so many bytes in two's complement. */
  int signed(int width, String field) {
    int unused = 32 - 8 * width;
    return unsigned(width, field) << unused >> unused;
  }

  int left() {
    return payload.length - at;
  }

  /** Refuses bytes behind the last field. */
  void end() {
    if (left() > 0) {
      throw refused("has " + payload.length + " bytes, of which its flags announce only " + at);
    }
  }

  PayloadRefused refused(String reason) {
    return new PayloadRefused(what, payload, reason);
  }
}
