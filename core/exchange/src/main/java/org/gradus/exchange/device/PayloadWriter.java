package org.gradus.exchange.device;

import java.io.ByteArrayOutputStream;

/** Writes the numbers of a payload one after the other, little end first. */
final class PayloadWriter {

  private final ByteArrayOutputStream bytes = new ByteArrayOutputStream();

  PayloadWriter number(int width, int number) {
    for (int i = 0; i < width; i++) {
      bytes.write(number >> (8 * i));
    }
    return this;
  }

  byte[] bytes() {
    return bytes.toByteArray();
  }
}
