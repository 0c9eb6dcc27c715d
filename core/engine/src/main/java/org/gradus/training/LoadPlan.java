package org.gradus.training;

import org.gradus.knowledge.Exercise;
import org.gradus.unit.Kind;

/** How to set an ergometer for a band of intensity. */
public sealed interface LoadPlan {

  /** The way to exercise. */
  Exercise exercise();

  /** In words, rounded to what can be set. */
  String words();

  /**
   * A load that can be set.
   *
   * @param exercise the way to exercise
   * @param load from the load at the start of the band to the one at its end, in base units
   * @param remark where not all of the band can be reached, or empty
   */
  record Reachable(Exercise exercise, Range load, String remark) implements LoadPlan {
    @Override
    public String words() {
      return remark.isEmpty() ? setting().toString() : setting() + " (" + remark + ")";
    }

    /** The load, rounded to what can be set: grades to a tenth, all else to a whole one. */
    public Range setting() {
      return load.rounded(exercise.between().low().kind() == Kind.NUMBER ? 1 : 0);
    }
  }

  /**
   * A band that cannot be reached in this way.
   *
   * @param exercise the way to exercise
   * @param reason why not, with the uptakes that can be reached
   */
  record NotReachable(Exercise exercise, String reason) implements LoadPlan {
    @Override
    public String words() {
      return reason;
    }
  }
}
