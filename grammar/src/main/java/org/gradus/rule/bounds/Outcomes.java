package org.gradus.rule.bounds;

/**
 * What a condition could come to.
 *
 * @param canHold whether it can hold
 * @param canFail whether it can be known not to hold
 * @param canBeUnknown whether it can stay unknown
 */
public record Outcomes(boolean canHold, boolean canFail, boolean canBeUnknown) {

  /** It holds, whatever the readings are. */
  public static final Outcomes HOLDS = new Outcomes(true, false, false);

  /** It is known not to hold, whatever the readings are. */
  public static final Outcomes FAILS = new Outcomes(false, true, false);

  /** It is unknown, whatever the readings are. */
  public static final Outcomes UNKNOWN = new Outcomes(false, false, true);

  /** No answer at all: what there is before the first outcomes are joined to it. */
  public static final Outcomes NONE = new Outcomes(false, false, false);

  /** Any answer. */
  public static final Outcomes ANYTHING = new Outcomes(true, true, true);

  /** Whether it holds whatever the readings are. */
  public boolean alwaysHolds() {
    return canHold && !canFail && !canBeUnknown;
  }

  /** Whether it is known not to hold whatever the readings are. */
  public boolean alwaysFails() {
    return canFail && !canHold && !canBeUnknown;
  }

  /** Whether it has one answer only. */
  public boolean isCertain() {
    return (canHold ? 1 : 0) + (canFail ? 1 : 0) + (canBeUnknown ? 1 : 0) == 1;
  }

  /** Whether it never holds. */
  public boolean neverHolds() {
    return !canHold;
  }

  /** What both together could come to. */
  public Outcomes and(Outcomes other) {
    return new Outcomes(
        canHold && other.canHold,
        canFail || other.canFail,
        (canBeUnknown && (other.canHold || other.canBeUnknown))
            || (other.canBeUnknown && (canHold || canBeUnknown)));
  }

  /** What its denial could come to. */
  public Outcomes not() {
    return new Outcomes(/* canHold= */ canFail, /* canFail= */ canHold, canBeUnknown);
  }

  /** What one of the two could come to. */
  public Outcomes or(Outcomes other) {
    return not().and(other.not()).not();
  }

  /** What either could come to. */
  public Outcomes join(Outcomes other) {
    return new Outcomes(
        canHold || other.canHold, canFail || other.canFail, canBeUnknown || other.canBeUnknown);
  }
}
