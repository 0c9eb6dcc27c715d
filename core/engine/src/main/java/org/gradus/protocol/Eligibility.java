package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.util.Set;

/**
 * Whom a protocol is for.
 *
 * @param youngest lowest age in completed years
 * @param oldest highest age in completed years, included
 * @param needs attributes of the person that must be given: {@code age}, {@code sex}, {@code mass}
 * @param outside what to do with a person outside the ages
 * @param why the reason the file gives for its ages, or empty
 */
public record Eligibility(
    int youngest, int oldest, Set<String> needs, Outside outside, String why) {

  /** What to do with a person outside the ages. */
  public enum Outside {
    /** Do not test. */
    DEFER,
    /** Test, and say that the figures come from other ages. */
    CAUTION
  }

  public Eligibility {
    requireNonNull(needs, "needs");
    requireNonNull(outside, "outside");
    requireNonNull(why, "why");
    needs = Set.copyOf(needs);
  }

  /** Whether it is for ages for which another is not. */
  public boolean isWiderThan(Eligibility other) {
    return youngest < other.youngest || oldest > other.oldest;
  }

  /** Whether an age lies within. */
  public boolean includes(double years) {
    return years >= youngest && years <= oldest;
  }
}
