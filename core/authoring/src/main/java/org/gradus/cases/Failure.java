package org.gradus.cases;

import static java.util.Objects.requireNonNull;

/**
 * Something that came out otherwise than a case says.
 *
 * @param caseId which case
 * @param where the event, by its number and time, or the expectation
 * @param what what was looked at: {@code then}, {@code rule}, {@code offers}
 * @param expected what the case says
 * @param found what came out
 */
public record Failure(String caseId, String where, String what, String expected, String found) {
  public Failure {
    requireNonNull(caseId, "caseId");
    requireNonNull(expected, "expected");
    requireNonNull(found, "found");
    requireNonNull(what, "what");
    requireNonNull(where, "where");
  }

  @Override
  public String toString() {
    return caseId + ", " + where + ": " + what + " should be " + expected + " but is " + found;
  }
}
