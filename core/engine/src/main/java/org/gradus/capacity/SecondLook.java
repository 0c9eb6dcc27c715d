package org.gradus.capacity;

import java.util.ArrayList;
import java.util.List;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Suspicion;
import org.gradus.words.Message;
import org.gradus.words.Name;

/**
 * Compares the headline with the estimates that are only a second look at the same capacity, such
 * as one by perceived exertion beside one by heart rate. They are never averaged: where they
 * disagree one of them rests on something that is wrong, and the mean would hide it.
 */
final class SecondLook {

  private static final Suspicion CAPACITY =
      new Suspicion("aerobic capacity", Suspicion.Look.PROCEDURE);

  private SecondLook() {}

  /** A finding for each second look that disagrees by more than both intervals allow. */
  static List<Finding> at(Estimate.Available best, List<Estimate> estimates) {
    List<Finding> findings = new ArrayList<>();
    for (Estimate estimate : estimates) {
      if (estimate.secondLook()
          && estimate instanceof Estimate.Available second
          && disagrees(best, second)
          && disagrees(second, best)) {
        findings.add(finding(best, second));
      }
    }
    return findings;
  }

  private static boolean disagrees(Estimate.Available one, Estimate.Available other) {
    return one.interval().filter(around -> !around.holds(other.vo2max())).isPresent();
  }

  private static Finding finding(Estimate.Available best, Estimate.Available second) {
    return new Finding(
        second.id().replace('_', '-') + "-disagrees",
        CAPACITY,
        List.of(),
        Message.of(ResultMessage.DISAGREES, new Name(second.id())),
        told(best) + "; " + told(second),
        second.source());
  }

  private static String told(Estimate.Available estimate) {
    return estimate.id().replace('_', ' ')
        + " "
        + estimate.vo2max().rounded(1)
        + estimate.interval().map(around -> " (" + around + ")").orElse("");
  }
}
