package org.gradus.rule.check;

import java.util.List;
import org.gradus.unit.Type;

/**
 * Something a rule wants to know of the test as it stands: a value, a value one minute earlier, an
 * average. Whoever evaluates rules fills one slot for each demand.
 *
 * @param aspect which view of the subject
 * @param subjects the names: one, or for a line the names of its two axes, y before x, and for a
 *     line through an anchor then those of the anchor's y, its x and the standard deviation of its
 *     x; for an interpolation those of its axes and perhaps of where it is read
 * @param seconds the stretch of time the aspect looks back; of an interpolation the x at which it
 *     is read, in its base unit, where no third name gives it; otherwise zero
 * @param type what the slot holds
 */
public record Demand(Aspect aspect, List<String> subjects, double seconds, Type type) {

  /** A view of a subject. */
  public enum Aspect {
    /** The value itself. */
    VALUE,
    /** The value a stretch of time earlier. */
    EARLIER,
    /** The mean of the values in a stretch of time; its start excluded, its end included. */
    AVERAGE,
    /** The highest value in the present stage. */
    HIGHEST,
    /** The lowest value in the present stage. */
    LOWEST,
    /** Whether a sign was reported at any time. */
    EVER,
    /** In how many stages, this one included, a definition held at the end. */
    COUNT,
    /** Whether a stage was gone through to its end. */
    COMPLETED,
    /** The mean x of a least-squares line over the selected stages. */
    LINE_MEAN_X,
    /** The mean y of that line. */
    LINE_MEAN_Y,
    /** The slope of that line, in base units of y per base unit of x. */
    LINE_SLOPE,
    /** The y between the two neighbouring of the selected stages where x goes through a value. */
    INTERPOLATED
  }

  public Demand {
    subjects = List.copyOf(subjects);
  }

  /** The plain value of a name. */
  public static Demand value(String subject, Type type) {
    return new Demand(Aspect.VALUE, List.of(subject), 0, type);
  }

  /** The first or only name it is about. */
  public String subject() {
    return subjects.get(0);
  }
}
