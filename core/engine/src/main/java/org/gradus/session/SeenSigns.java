package org.gradus.session;

import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;

/**
 * The signs that the tester has reported. Immutable.
 *
 * @param grades those that are there, with their grade; 1 for a sign that has none
 * @param ever those that were reported at any time and not as gone
 * @param symptoms those for which a stop was followed, or overridden, and which are not known to
 *     have gone since
 */
record SeenSigns(Map<String, Double> grades, Set<String> ever, Set<String> symptoms) {

  /** None was reported. */
  static final SeenSigns NONE = new SeenSigns(Map.of(), Set.of(), Set.of());

  /** The grade of a sign; 0 if it is not there. */
  double grade(String sign) {
    Double grade = grades.get(sign);
    return grade == null ? 0 : grade;
  }

  boolean wasReported(String sign) {
    return ever.contains(sign) || grades.containsKey(sign);
  }

  /** A sign was reported; with grade 0, as gone. */
  SeenSigns reported(String sign, double grade) {
    Map<String, Double> now = PersistentCollections.with(grades, sign, grade);
    return grade > 0
        ? new SeenSigns(now, PersistentCollections.with(ever, sign), symptoms)
        : new SeenSigns(now, ever, PersistentCollections.without(symptoms, sign));
  }

  /** A sign is no longer there. */
  SeenSigns withdrawn(String sign) {
    return new SeenSigns(
        PersistentCollections.without(grades, sign),
        ever,
        PersistentCollections.without(symptoms, sign));
  }

  /** A stop was followed or overridden for a sign. */
  SeenSigns withSymptom(String sign) {
    return new SeenSigns(grades, ever, PersistentCollections.with(symptoms, sign));
  }

  /** A stage begins or the exercise ends: only signs that last are still there. */
  SeenSigns keeping(Predicate<String> lasting) {
    return new SeenSigns(PersistentCollections.keeping(grades, lasting), ever, symptoms);
  }
}
