package org.gradus.session;

import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;

/**
 * Tells a test again, event by event, in the order in which it was told. Each event is checked
 * against the course as it was then: an amendment that was told later does not make wrong what was
 * followed before it.
 */
final class Replay {

  /** Looks on while a test is told again. */
  @FunctionalInterface
  interface Step {

    /** Looks at an event between the course before it and the moment after it. */
    void told(Course before, Event event, Moment after);
  }

  private Replay() {}

  /**
   * The course that events lead to. They are held to all that a live session holds them to.
   *
   * @throws RecordRefused when one of them cannot have happened, with its number
   * @throws ReadingRefused when something the protocol needs to know of the person is missing
   */
  static Course of(Protocol protocol, Person person, List<Event> events, Step step) {
    Course course = Course.open(protocol, person);
    for (Event event : events) {
      Moment next;
      try {
        next = Intake.apply(course, event);
      } catch (ReadingRefused | VerdictRefused refused) {
        throw new RecordRefused(
            Code.G620,
            refused,
            Integer.toString(course.events.size() + 1),
            protocol.toString(),
            String.valueOf(refused.getMessage()));
      }
      step.told(course, event, next);
      course = next.course();
    }
    return course;
  }
}
