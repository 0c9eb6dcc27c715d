package org.gradus.review;

import java.util.Locale;

/** How much a finding matters. */
public enum Severity {
  /** A person could be led too far. */
  DANGER,
  /** The file most likely does not say what its author means. */
  FAULT,
  /** Worth knowing, and worth a sentence of the author's. */
  NOTE;

  /** The word reports use. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
