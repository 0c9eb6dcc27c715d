package org.gradus.protocol;

import java.util.Locale;

/** How the person is placed for a reading before the test. */
public enum Posture {
  /** Seated at rest; rules say {@code resting.heart_rate}. */
  RESTING,
  /** Standing on the ergometer; rules say {@code upright.systolic}. */
  UPRIGHT;

  /** The word rules use. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
