package org.gradus.rule.plan;

import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.bounds.NumberRange;
import org.gradus.rule.bounds.Outcomes;

/**
 * The part of a box over which nodes are evaluated while one question is answered, and the steps
 * that the answer may still take. Nodes ask the region for their parts, so that each step is
 * counted. For one thread.
 */
public final class Region {

  private final Box box;
  private final StepBudget budget;

  private Region(Box box, StepBudget budget) {
    this.box = box;
    this.budget = budget;
  }

  /** All of a box, for a new question. */
  public static Region of(Box box) {
    return new Region(box, new StepBudget());
  }

  Box box() {
    return box;
  }

  Cell cell(int slot) {
    return box.cell(slot);
  }

  /** All numbers that a node could be. */
  public NumberRange range(NumberNode node) {
    return budget.take() ? node.range(this) : NumberRange.ANYTHING;
  }

  /** All answers that a node could give. */
  public Outcomes outcomes(TruthNode node) {
    return budget.take() ? node.outcomes(this) : Outcomes.ANYTHING;
  }

  /** The part of the box in which a condition gives this answer, yes or no. */
  public Box narrow(TruthNode condition, boolean answer) {
    return budget.take() ? condition.narrow(this, answer) : box;
  }

  /** The region in which a condition gives this answer. */
  Region where(TruthNode condition, boolean answer) {
    Box narrower = narrow(condition, answer);
    return narrower == box ? this : new Region(narrower, budget);
  }
}
