package org.gradus.rule.bounds;

/** Whether a value is there. */
public enum Presence {
  /** It is. */
  KNOWN,
  /** It may be missing. */
  MAYBE,
  /** It is missing. */
  UNKNOWN;

  boolean canBeKnown() {
    return this != UNKNOWN;
  }

  boolean canBeUnknown() {
    return this != KNOWN;
  }

  static Presence of(boolean canBeKnown, boolean canBeUnknown) {
    return !canBeUnknown ? KNOWN : canBeKnown ? MAYBE : UNKNOWN;
  }
}
