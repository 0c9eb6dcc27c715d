package org.gradus.rule.answer;

import static java.util.Objects.requireNonNull;

/** The three answers a condition can give, with the operations of strong three-valued logic. */
public enum Truth {
  /** It holds. */
  TRUE,
  /** It does not hold. */
  FALSE,
  /** Something it rests on is not known. */
  UNKNOWN;

  /** Whether one of the two holds. */
  public Truth or(Truth other) {
    requireNonNull(other, "other");
    if (this == TRUE || other == TRUE) {
      return TRUE;
    }
    return this == UNKNOWN || other == UNKNOWN ? UNKNOWN : FALSE;
  }

  /** Whether it is known. */
  public boolean isKnown() {
    return this != UNKNOWN;
  }
}
