package org.gradus.exchange.device;

import java.util.HexFormat;
import org.gradus.diagnostic.InputRefused;

/**
 * A payload of a device is too short, has bytes that its flags do not announce, or says what cannot
 * be. Nothing was read from it; drop the message and wait for the next one.
 */
public final class PayloadRefused extends InputRefused {

  private static final long serialVersionUID = 1L;
  // Longer payloads than devices send are shown cut, so that a message stays readable.
  private static final int MOST_SHOWN = 64;

  private final String what;
  private final String reason;

  PayloadRefused(String what, byte[] payload, String reason) {
    super(
        "the " + what + " [" + shown(payload) + "]",
        reason,
        "drop this message and wait for the next one");
    this.what = what;
    this.reason = reason;
  }

  /** The kind of message: {@code "heart rate measurement"}. */
  public String what() {
    return what;
  }

  /** What is wrong, with the place: {@code "ends at byte 1, within the heart rate"}. */
  public String reason() {
    return reason;
  }

  private static String shown(byte[] payload) {
    HexFormat hex = HexFormat.ofDelimiter(" ").withUpperCase();
    return payload.length <= MOST_SHOWN
        ? hex.formatHex(payload)
        : hex.formatHex(payload, 0, MOST_SHOWN) + " ...";
  }
}
