package org.gradus.review;

import static java.util.Objects.requireNonNull;

import org.gradus.diagnostic.Span;
import org.gradus.rule.answer.Truth;
import org.gradus.unit.Quantity;

/**
 * Readings beside, or on, the edge of one comparison of one rule, and what they come to.
 *
 * @param rule the id of the rule
 * @param group where it stands: {@code any_time}, {@code stage_end}, the id of a stage
 * @param moment when it is looked at: {@code before}, {@code walk_1 at 3:00}, {@code any time}
 * @param comparison the comparison, in one line
 * @param where where it stands
 * @param subject what is varied: {@code heart_rate}
 * @param value its value
 * @param side on which side of the edge it lies
 * @param others everything else the rule asks for, in words
 * @param holds whether the rule holds
 * @param decides the rule of the same group that decides on these readings, with what it says; for
 *     rules at any time the first that would end the test
 */
public record EdgeCase(
    String rule,
    String group,
    String moment,
    String comparison,
    Span where,
    String subject,
    Quantity value,
    Side side,
    String others,
    Truth holds,
    String decides) {
  public EdgeCase {
    requireNonNull(comparison, "comparison");
    requireNonNull(decides, "decides");
    requireNonNull(group, "group");
    requireNonNull(holds, "holds");
    requireNonNull(moment, "moment");
    requireNonNull(others, "others");
    requireNonNull(rule, "rule");
    requireNonNull(side, "side");
    requireNonNull(subject, "subject");
    requireNonNull(value, "value");
    requireNonNull(where, "where");
  }

  /** Sides of an edge. */
  public enum Side {
    /** One step below. */
    BELOW(-1),
    /** On it. */
    AT(0),
    /** One step above. */
    ABOVE(1);

    private final int steps;

    Side(int steps) {
      this.steps = steps;
    }

    /** How many steps above the edge. */
    int steps() {
      return steps;
    }
  }
}
