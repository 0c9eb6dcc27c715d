package org.gradus.examples.console;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import org.gradus.session.Times;

/**
 * The time of a test beside the time of day. The engine has no clock, so the moment at which the
 * session began is kept in a small file beside the record; its time of change is renewed while the
 * console runs, so that a gap can be told after it was killed.
 */
final class WallClock {

  private final Path file;
  private final Instant began;
  private final double speed;
  private final InstantSource day;

  private WallClock(Path file, Instant began, double speed, InstantSource day) {
    this.day = day;
    this.file = file;
    this.began = began;
    this.speed = speed;
  }

  /** A clock of a test that has just begun. */
  static WallClock begin(Path file, Instant began, double speed, InstantSource day) {
    WallClock clock = new WallClock(file, began, speed, day);
    try {
      Files.writeString(file, clock.began.toEpochMilli() + " " + speed + "\n");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return clock;
  }

  /** The clock of a test that is taken up again. */
  static WallClock read(Path file, InstantSource day) {
    try {
      List<String> words = List.of(Files.readString(file).strip().split(" ", -1));
      return new WallClock(
          file,
          Instant.ofEpochMilli(Long.parseLong(words.get(0))),
          Double.parseDouble(words.get(1)),
          day);
    } catch (IOException | NumberFormatException | IndexOutOfBoundsException e) {
      throw new Refusal(
          409,
          "The clock of this test cannot be read ({0}): {1}",
          String.valueOf(file.getFileName()),
          e.toString());
    }
  }

  double speed() {
    return speed;
  }

  /** The time of the test now. */
  Duration now() {
    return at(day.instant());
  }

  private Duration at(Instant moment) {
    long millis = (long) (Duration.between(began, moment).toMillis() * speed);
    Duration time = Duration.ofMillis(Math.max(0, millis));
    return time.compareTo(Times.LONGEST) > 0 ? Times.LONGEST : time;
  }

  /** The time of the test at which the console was last known to run. */
  Duration lastAlive() {
    try {
      return at(Files.getLastModifiedTime(file).toInstant());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Notes that the console runs. */
  void beat() {
    try {
      Files.setLastModifiedTime(file, FileTime.from(day.instant()));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
