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
  private @Nullable Frame latest;

  private Moment(Course course, Duration time, @Nullable Frame latest) {
    this.course = course;
    this.time = time;
    this.latest = latest;
  }

  /** A course as it stands at a time, before anything is told then. */
  static Moment of(Course course, Duration time) {
    return of(new Moment(course, time, null));
  }

  /** The same moment, with what time alone brings about once an event is over. */
  static Moment of(Moment before) {
    Course course = before.course;
    Course by = Elapsed.at(before);
    // What rules are looked at with does not hang on what they came to before.
    return by == course ? before : new Moment(by, before.time, before.latest);
  }

  /**
   * A course that has just been made by an event, and looked at.
   *
   * @param latest what is known at it, if it has been put together already
   */
  static Moment after(Course course, @Nullable Frame latest) {
    return new Moment(course, course.now, latest);
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
    return latest != null ? Optional.of(latest) : course.shown();
  }

  /** What is known, by the latest readings. */
  Frame latest() {
    Frame known = latest;
    if (known == null) {
      known = course.shown().map(this::now).orElseGet(() -> Sight.latest(course, time));
      latest = known;
    }
    return known;
  }

  private Frame now(Frame shown) {
    return time.equals(course.now)
        ? shown
        : Sight.again(shown, course, time, course.protocol.wiring().changes().byTime());
  }
}
