package org.gradus.session;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What was counted over the stages before the present one. It is kept from event to event, so that
 * a decision late in a test costs no more than an early one; and only as long as everything that
 * the end of a stage over shows is still the same, so that it never changes an answer. Immutable.
 */
final class Tally {

  private final List<Passage> over;
  private final List<Object> seen;
  private final int[] held;
  private final int[] marginal;

  /**
   * @param over the stages that were looked at
   * @param held for each slot, how often its definition held
   * @param marginal for each slot, how often it could also have come out otherwise
   */
  Tally(Course course, List<Passage> over, int[] held, int[] marginal) {
    this.over = over;
    this.seen = seen(course);
    this.held = held.clone();
    this.marginal = marginal.clone();
  }

  // What else the end of a stage shows, and can still change when the stage is over.
  private static List<Object> seen(Course course) {
    Map<String, Double> signs = course.signs;
    Set<String> reported = course.everReported;
    Map<String, Taken> named = course.named;
    Map<String, Taken> atFinish = course.atFinish;
    Optional<?> exerciseEnd = course.exerciseEnd;
    return List.of(signs, reported, named, atFinish, exerciseEnd);
  }

  /** Whether it holds for these stages of a course, of which there may be more by now. */
  boolean isOf(Course course, List<Passage> before) {
    // A late reading makes another passage of one that is over.
    return over.size() <= before.size()
        && over.equals(before.subList(0, over.size()))
        && seen.equals(seen(course));
  }

  /** How many stages were looked at. */
  int stages() {
    return over.size();
  }

  /** Takes up counting where it stood. */
  void show(int[] intoHeld, int[] intoMarginal) {
    System.arraycopy(held, 0, intoHeld, 0, held.length);
    System.arraycopy(marginal, 0, intoMarginal, 0, marginal.length);
  }
}
