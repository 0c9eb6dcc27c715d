package org.gradus.session;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.words.Message;
import org.gradus.words.MessageKey;

/** Times of a test: how they are written and shown. */
public final class Times {

  private static final Pattern CLOCK =
      Pattern.compile("(-)?(?:([0-9]{1,4}):)?([0-9]{1,5}):([0-5][0-9])(?:\\.([0-9]{1,9}))?");

  /**
   * The longest that a test can last, 24 hours. A time beyond it, or as long before the start, must
   * be a slip and is refused (G502).
   */
  public static final Duration LONGEST = Duration.ofHours(24);

  private static final Duration EARLIEST = LONGEST.negated();

  private Times() {}

  /**
   * A time since the start of the session, written as on a stopwatch: {@code at("3:00")}, {@code
   * at("1:02:30")}, {@code at("3:00.25")}; {@code at("-0:30")} is half a minute before it. Reads
   * whatever {@link #exact} writes.
   *
   * @throws ValueRefused when the text is no such time
   */
  public static Duration at(String clock) {
    requireNonNull(clock, "clock");
    Matcher parts = CLOCK.matcher(clock);
    if (!parts.matches()) {
      throw new ValueRefused(
          "a time", '"' + clock + '"', "write it as on a stopwatch, such as 3:00 or 1:02:30");
    }
    long hours = parts.group(2) == null ? 0 : Long.parseLong(parts.group(2));
    long seconds =
        (hours * 60 + Long.parseLong(parts.group(3))) * 60 + Long.parseLong(parts.group(4));
    String fraction = parts.group(5) == null ? "" : parts.group(5);
    long nanos = Long.parseLong((fraction + "000000000").substring(0, 9));
    Duration time = Duration.ofSeconds(seconds, nanos);
    return parts.group(1) == null ? time : time.negated();
  }

  /**
   * A time as on a stopwatch with every fraction of its seconds: {@code 3:00}, {@code 3:00.25},
   * {@code -0:30}. {@link #at} reads it back.
   */
  public static String exact(Duration time) {
    Duration length = time.abs();
    String fraction =
        length.toNanosPart() == 0
            ? ""
            : "." + String.format(Locale.ROOT, "%09d", length.toNanosPart()).replaceAll("0+$", "");
    return (time.isNegative() ? "-" : "") + clock(length) + fraction;
  }

  /** So many seconds. */
  public static Duration seconds(long seconds) {
    return Duration.ofSeconds(seconds);
  }

  /**
   * A time as on a stopwatch, for people: {@code 3:00}; hours appear from the first full one, and a
   * second that has begun does not count.
   */
  public static String clock(Duration time) {
    long seconds = time.toSeconds();
    String sign = seconds < 0 ? "-" : "";
    long whole = Math.abs(seconds);
    String ending = String.format(Locale.ROOT, "%02d", whole % 60);
    return whole < 3600
        ? sign + whole / 60 + ":" + ending
        : sign + whole / 3600 + String.format(Locale.ROOT, ":%02d:", whole / 60 % 60) + ending;
  }

  /** Whether a test can have a time: within 24 hours before or after the start of the session. */
  public static boolean isPossible(Duration time) {
    return time.compareTo(LONGEST) <= 0 && time.compareTo(EARLIEST) >= 0;
  }

  /** Refuses a time that no test can have. */
  static void refuseImpossible(MessageKey what, Duration time) {
    if (!isPossible(time)) {
      refuseImpossible(Message.of(what), time);
    }
  }

  /** Refuses a time that no test can have. */
  static void refuseImpossible(Message what, Duration time) {
    if (!isPossible(time)) {
      throw new ReadingRefused(
          Code.G502,
          Message.of(SessionMessage.TIME_OF, what),
          clock(time),
          Message.of(SessionMessage.RANGE, "0:00", clock(LONGEST)));
    }
  }
}
