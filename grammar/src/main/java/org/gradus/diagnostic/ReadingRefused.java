package org.gradus.diagnostic;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * A reading, report or answer cannot be true or does not belong here: wrong unit or scale, out of
 * order, impossible. The session is unchanged and stays usable.
 */
public final class ReadingRefused extends GradusException {

  private static final long serialVersionUID = 1L;

  /**
   * Refuses a reading.
   *
   * <p>What is given besides the code is a text that is in no language, or anything else that a
   * {@linkplain org.gradus.words.Message message} can speak of.
   *
   * @param code why
   * @param what the signal or event, such as {@code "heart_rate"}
   * @param value what was given
   * @param limit what it was measured against, or empty
   */
  public ReadingRefused(Code code, Object what, Object value, Object limit) {
    super(code, List.of(what, value, limit));
    requireNonNull(limit, "limit");
    requireNonNull(value, "value");
    requireNonNull(what, "what");
  }

  /** The signal or event that was refused. */
  public String what() {
    return arguments().get(0);
  }

  /** The value that was refused, as it was given. */
  public String value() {
    return arguments().get(1);
  }

  /** The limit or the expectation the value failed; empty when the code says it all. */
  public String limit() {
    return arguments().get(2);
  }
}
