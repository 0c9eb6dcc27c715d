package org.gradus.rule.plan;

/** The three answers a condition can give, with the operations of strong three-valued logic. */
public enum Truth {
  /** It holds. */
  TRUE,
  /** It does not hold. */
  FALSE,
  /** Something it rests on is not known. */
  UNKNOWN;

  // In a plan: and is the lower, or the higher, not the negative.
  static final byte YES = 1;
  static final byte OPEN = 0;
  static final byte NO = -1;

  // Looked up and not branched on: which of them it will be cannot be foreseen.
  private static final Truth[] BY_PLANNED = {FALSE, UNKNOWN, TRUE};

  static Truth of(byte planned) {
    return BY_PLANNED[planned - NO];
  }

  static byte planned(boolean known) {
    return known ? YES : NO;
  }

  /** Whether one of the two holds. */
  public Truth or(Truth other) {
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
