package org.gradus.session;

import java.time.Duration;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;

/** Times of a test: how they are written and shown. */
public final class Times {

  private static final Pattern CLOCK =
      Pattern.compile("(?:([0-9]{1,4}):)?([0-9]{1,5}):([0-5][0-9])");

  // No exercise test lasts a day; a later time must be a slip.
  static final Duration LONGEST = Duration.ofHours(24);
  private static final Duration EARLIEST = LONGEST.negated();

  private Times() {}

  /**
   * A time since the start of the session, written as on a stopwatch: {@code at("3:00")}, {@code
   * at("1:02:30")}.
   *
   * @throws IllegalArgumentException when the text is no such time
   */
  public static Duration at(String clock) {
    Matcher parts = CLOCK.matcher(clock);
    if (!parts.matches()) {
      throw new IllegalArgumentException("not a time such as 3:00 or 1:02:30: " + clock);
    }
    long hours = parts.group(1) == null ? 0 : Long.parseLong(parts.group(1));
    long minutes = Long.parseLong(parts.group(2));
    return Duration.ofSeconds((hours * 60 + minutes) * 60 + Long.parseLong(parts.group(3)));
  }

  /** So many seconds. */
  public static Duration seconds(long seconds) {
    return Duration.ofSeconds(seconds);
  }

  /** A time as on a stopwatch: {@code 3:00}; hours appear from the first full one. */
  public static String clock(Duration time) {
    long seconds = time.toSeconds();
    String sign = seconds < 0 ? "-" : "";
    long whole = Math.abs(seconds);
    String ending = String.format(java.util.Locale.ROOT, "%02d", whole % 60);
    return whole < 3600
        ? sign + whole / 60 + ":" + ending
        : sign
            + whole / 3600
            + String.format(java.util.Locale.ROOT, ":%02d:", whole / 60 % 60)
            + ending;
  }

  /** Whether a test can have a time: within 24 hours before or after the start of the session. */
  public static boolean isPossible(Duration time) {
    return time.compareTo(LONGEST) <= 0 && time.compareTo(EARLIEST) >= 0;
  }

  /** Refuses a time that no test can have. */
  static void refuseImpossible(String what, Duration time) {
    if (!isPossible(time)) {
      throw new ReadingRefused(
          Code.G502, "the time of " + what, clock(time), "0:00 to " + clock(LONGEST));
    }
  }
}
