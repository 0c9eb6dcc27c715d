package org.gradus.session;

import java.time.Duration;
import org.gradus.rule.plan.Frame;
import org.jspecify.annotations.Nullable;

/**
 * A course at one moment, with what time alone has brought about by then. What is known at it is
 * put together when somebody first asks. For one thread.
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
    return Elapsed.at(after(course), time);
  }

  /** A course right after its last event. */
  static Moment after(Course course) {
    return new Moment(course, course.now, null);
  }

  /** A later moment of the same course, as if nothing had come about in between. */
  Moment later(Duration at) {
    return at.equals(time) ? this : new Moment(course, at, null);
  }

  /** The same moment once rules have been looked at, which changes nothing of what is known. */
  Moment with(Course looked) {
    return new Moment(looked, time, latest);
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

  /** What is known, by the latest readings. */
  Frame latest() {
    Frame found = latest;
    if (found == null) {
      found = Sight.latest(course, time);
      latest = found;
    }
    return found;
  }
}
