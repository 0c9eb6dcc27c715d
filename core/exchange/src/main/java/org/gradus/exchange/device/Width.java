package org.gradus.exchange.device;

import org.gradus.diagnostic.ValueRefused;

/** How many bytes a number takes, and whether it has a sign. */
enum Width {
  U8(1, false),
  U16(2, false),
  U24(3, false),
  S16(2, true);

  private final int bytes;
  private final boolean signed;

  Width(int bytes, boolean signed) {
    this.bytes = bytes;
    this.signed = signed;
  }

  int bytes() {
    return bytes;
  }

  int least() {
    return signed ? -(1 << (8 * bytes - 1)) : 0;
  }

  int most() {
    return (1 << (8 * bytes - (signed ? 1 : 0))) - 1;
  }

  int read(PayloadReader reader, String field) {
    return signed ? reader.signed(bytes, field) : reader.unsigned(bytes, field);
  }

  void write(PayloadWriter writer, int number) {
    writer.number(bytes, number);
  }

  /**
   * The number itself.
   *
   * @throws ValueRefused when it does not fit
   */
  int holding(int number, String field) {
    if (number < least() || number > most()) {
      throw new ValueRefused(
          field, Integer.toString(number), "its field holds " + least() + " to " + most());
    }
    return number;
  }
}
