package org.gradus.protocol;

import static java.util.Objects.requireNonNull;

import java.time.Duration;

/**
 * How long a stage lasts, as far as readings are timed by it.
 *
 * @param lasts its length; while it is not done, the longest it can be
 * @param end what ends it
 */
public record Stretch(Duration lasts, End end) {
  public Stretch {
    requireNonNull(end, "end");
    requireNonNull(lasts, "lasts");
  }

  /** What ends a stretch. */
  public enum End {
    /** Its time is up; when that is, is known from its beginning. */
    PLANNED,
    /** What is to be done is done; it has not been yet. */
    OPEN,
    /** What was to be done has been done. */
    DONE
  }

  /** A stretch whose end is known from its beginning. */
  public static Stretch of(Duration lasts) {
    requireNonNull(lasts, "lasts");
    return new Stretch(lasts, End.PLANNED);
  }
}
