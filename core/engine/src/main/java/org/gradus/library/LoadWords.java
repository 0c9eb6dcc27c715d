package org.gradus.library;

import org.gradus.protocol.LoadRange;
import org.gradus.rule.bounds.Cell;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Literal;
import org.gradus.rule.syntax.Expression.Negation;
import org.gradus.rule.syntax.Expression.Reference;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Says what a load could be, and what to do about it. */
final class LoadWords {

  // What is not bounded comes out as some figure that nobody would write.
  private static final double UNBOUNDED = 1e9;

  private LoadWords() {}

  /** From the least to the greatest value: {@code 0 W to 850 W}, {@code 100 W and more}. */
  static String values(Cell.Range values, Unit unit) {
    boolean from = values.low() > -UNBOUNDED;
    boolean to = values.high() < UNBOUNDED;
    if (!from && !to) {
      return "anything";
    } else if (!to) {
      return shown(values.low(), unit) + " and more";
    } else if (!from) {
      return shown(values.high(), unit) + " and less";
    }
    String low = shown(values.low(), unit);
    String high = shown(values.high(), unit);
    return low.equals(high) ? low : low + " to " + high;
  }

  // As finely as any ergometer can be set.
  private static String shown(double value, Unit unit) {
    return Quantity.ofBase(value, unit).rounded(2).toString();
  }

  /**
   * How to keep it within its range.
   *
   * @param draft the file, which may ask for it or leave it open itself
   */
  static String remedy(Expression text, LoadRange range, boolean low, boolean high, Draft draft) {
    String ownRange = ", or the range of " + range.name() + " under loads";
    if (isFigure(text)) {
      return "check digits, unit and steps" + ownRange;
    } else if (LoadReader.isClimbed(text)) {
      return "check from, step and count of the series" + ownRange;
    } else if (range.name().equals("brake_force")) {
      return "bound the power with greater and lesser, or prescribe another pedal_rate";
    }
    String bounded = high ? "lesser(..., " + range.range().high() + ")" : "...";
    // Who answers 40 km/h is better asked again than set to 25 km/h.
    String first =
        text instanceof Reference told && isOpen(told.name(), draft)
            ? "allow " + told.name() + " only " + range.range() + ", or "
            : "";
    return first
        + "bound it: "
        + (low ? "greater(" + bounded + ", " + range.range().low() + ")" : bounded);
  }

  private static boolean isOpen(String name, Draft draft) {
    return draft.questions.containsKey(name) || draft.settings.containsKey(name);
  }

  private static boolean isFigure(Expression text) {
    return text instanceof Literal
        || (text instanceof Negation negation && isFigure(negation.operand()));
  }
}
