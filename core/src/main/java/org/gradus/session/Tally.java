package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * What was counted over the stages before the present one. It is kept from event to event, so that
 * a decision late in a test costs no more than an early one.
 *
 * @param over the stages that were looked at
 * @param signs the signs that lasted then
 * @param everReported the signs reported until then
 * @param exerciseEnd when the exercise had ended, if it had
 * @param held how often each counted definition held
 * @param marginal how often it could also have come out otherwise
 */
record Tally(
    List<Passage> over,
    Map<String, Double> signs,
    Set<String> everReported,
    Optional<Duration> exerciseEnd,
    List<Integer> held,
    List<Integer> marginal) {

  /** Whether it holds for stages of a course, of which there may be more by now. */
  boolean isOf(Course course, List<Passage> before) {
    if (over.size() > before.size()) {
      return false;
    }
    for (int i = 0; i < over.size(); i++) {
      // A late reading makes another passage of one that is over.
      if (!over.get(i).equals(before.get(i))) {
        return false;
      }
    }
    return signs.equals(course.signs)
        && everReported.equals(course.everReported)
        && exerciseEnd.equals(course.exerciseEnd);
  }
}
