package org.gradus.examples.evaluation;

import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A set of open measurements: stages with heart rate and uptake, and the capacity that was measured
 * in the same people.
 *
 * @param id the id of its protocol, and the folder of its data
 * @param title what it is, in a few words
 * @param withAge whether ages are known, so that the maximal heart rate can be predicted
 * @param stages the file of its stages; empty where each row of the tests is a stage, too
 * @param faulty tests that its source calls faulty
 */
record Study(
    String id, String title, boolean withAge, Optional<String> stages, Set<String> faulty) {

  /** Trained cyclists, several stages; two tests are left out, in which an uptake is in error. */
  static final Study STEADY_CYCLING =
      new Study(
          "steady-cycling",
          "cyclists, stages of 5 min",
          true,
          Optional.of("stages.csv"),
          Set.of("3 pre", "14 meso2"));

  /** Cross-country skiers, one running stage. */
  static final Study ONE_RUNNING_STAGE =
      new Study(
          "one-running-stage", "skiers, one running stage", false, Optional.empty(), Set.of());

  /** All of them. */
  static final List<Study> ALL = List.of(STEADY_CYCLING, ONE_RUNNING_STAGE);
}
