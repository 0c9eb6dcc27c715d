package org.gradus.rule.bounds;

/** Whether a value is there. */
public enum Presence {
  /** It is. */
  KNOWN,
  /** It may be missing. */
  MAYBE,
  /** It is missing. */
  UNKNOWN;

  /** Whether it can be there. */
  public boolean canBeKnown() {
    return this != UNKNOWN;
  }

  /** Whether it can be missing. */
  public boolean canBeUnknown() {
    return this != KNOWN;
  }

  /** The presence of a value that can be there, or missing, or both. */
  public static Presence of(boolean canBeKnown, boolean canBeUnknown) {
    return !canBeUnknown ? KNOWN : canBeKnown ? MAYBE : UNKNOWN;
  }
}
