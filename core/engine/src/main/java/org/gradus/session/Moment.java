package org.gradus.session;

import java.time.Duration;
import java.util.Optional;
import org.gradus.rule.plan.Frame;
import org.jspecify.annotations.Nullable;

/**
 * A course at one moment, with what time alone has brought about by then. What is known at it is
 * put together once, and only if somebody asks. For one thread, and not to be kept: a frame is
 * large.
 */
final class Moment {

  private final Course course;
  private final Duration time;
  // What was known then, or somewhat earlier since the last event.
  private final @Nullable Frame known;
  private @Nullable Frame latest;

  private Moment(Course course, Duration time, @Nullable Frame known, @Nullable Frame latest) {
    this.course = course;
    this.time = time;
    this.known = known;
    this.latest = latest;
  }

  /** A course as it stands at a time, before anything is told then. */
  static Moment of(Course course, Duration time) {
    return Elapsed.at(after(course), time);
  }

  /** A course right after its last event. */
  static Moment after(Course course) {
    return new Moment(course, course.now, null, null);
  }

  /**
   * A course that has just been made by an event, and looked at.
   *
   * @param latest what is known at it
   */
  static Moment after(Course course, Frame latest) {
    return new Moment(course, course.now, latest, latest);
  }

  /** A later moment of the same course, as if nothing had come about in between. */
  Moment later(Duration at) {
    return at.equals(time) ? this : new Moment(course, at, latest != null ? latest : known, null);
  }

  /** The same moment of a course in which rules have been looked at. */
  Moment with(Course looked) {
    return new Moment(looked, time, known, latest);
  }

  Course course() {
    return course;
  }

  /** How many events it rests on: the number of the last one. */
  int number() {
    return course.events.size();
  }

  Duration time() {
    return time;
  }

  /** What was known right after the last event or later, if that is still at hand. */
  Optional<Frame> atHand() {
    if (latest != null) {
      return Optional.of(latest);
    }
    return known != null ? Optional.of(known) : course.shown();
  }

  /** What is known, by the latest readings. */
  Frame latest() {
    Frame found = latest;
    if (found == null) {
      found = atHand().map(this::now).orElseGet(() -> Sight.latest(course, time));
      latest = found;
    }
    return found;
  }

  private Frame now(Frame before) {
    return known == null && time.equals(course.now)
        ? before
        : Sight.again(before, course, time, course.protocol.wiring().changes().byTime());
  }
}
