package org.gradus.rule.bounds;

/**
 * How much work one question may still take. Conditions inside values inside conditions are looked
 * at once for each way to get there, and a text can be written in which the ways double at every
 * step. When the effort is spent, everything is taken to be possible, which is always safe.
 */
final class Effort {

  // A hundred times what the longest rule needs that a person would write.
  private int left = 50_000;

  boolean isSpent() {
    if (left > 0) {
      left--;
    }
    return left == 0;
  }

  boolean wasSpent() {
    return left == 0;
  }
}
