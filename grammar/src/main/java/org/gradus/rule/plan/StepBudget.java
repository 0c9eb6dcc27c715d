package org.gradus.rule.plan;

/**
 * How many steps the answer to one question about a region may still take. Conditions inside values
 * inside conditions are evaluated once for each way to get there, and a text can be written in
 * which the ways double at every level. When the budget is spent, every answer is taken to be
 * possible, which is always safe.
 */
final class StepBudget {

  // A hundred times what the longest rule needs that a person would write.
  private int left = 50_000;

  /** Takes one step; false when no step is left. */
  boolean take() {
    if (left > 0) {
      left--;
    }
    return left > 0;
  }
}
