package org.gradus.knowledge;

import static java.util.Objects.requireNonNull;

/**
 * When a line through stages is taken to rise: its slope has to lie so many standard errors above
 * zero. The standard error is the larger of two: that which follows from the errors of the readings
 * and their steps, and that which the scatter of the stages around the line shows.
 *
 * @param standardErrors how many standard errors, above zero
 * @param source its citation
 */
public record LineRise(double standardErrors, Citation source) {
  public LineRise {
    requireNonNull(source, "source");
  }
}
