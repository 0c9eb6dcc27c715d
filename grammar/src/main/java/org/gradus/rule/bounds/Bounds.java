package org.gradus.rule.bounds;

import java.util.ArrayList;
import java.util.List;
import org.gradus.rule.check.Checked;

/** Evaluates checked trees over a box. */
public final class Bounds {

  private Bounds() {}

  /** What a condition could come to anywhere in a box. */
  public static Outcomes outcomes(Checked condition, Box box) {
    return Survey.of(condition, box).truth(condition.root());
  }

  /** What a value could come to anywhere in a box. */
  public static Cell.Range range(Checked value, Box box) {
    Interval interval = Survey.of(value, box).number(value.root());
    return new Cell.Range(interval.low(), interval.high(), interval.presence());
  }

  /** The comparisons in a condition, also inside definitions, that could come out either way. */
  public static List<String> undecided(Checked condition, Box box) {
    List<String> found = new ArrayList<>();
    Survey.of(condition, box).collectUndecided(condition.root(), found);
    return found.size() < 2 ? List.copyOf(found) : found.stream().distinct().toList();
  }
}
