package org.gradus.cases;

import static java.util.Objects.requireNonNull;

import java.util.List;

/**
 * What came of running cases.
 *
 * @param failures everything that came out otherwise; empty when all is as the cases say
 * @param coverage what of the protocol they have shown
 */
public record CaseReport(List<Failure> failures, Coverage coverage) {

  public CaseReport {
    requireNonNull(coverage, "coverage");
    requireNonNull(failures, "failures");
    failures = List.copyOf(failures);
  }
}
