package org.gradus.session;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;

/** Reads the decision of a moment off a course. Pure: asking changes nothing. */
final class Judge {

  private Judge() {}

  static Decision decide(Course course, Duration time) {
    return at(moment(course, time));
  }

  /** When the decision of a moment may change by itself. */
  static Optional<Duration> changesAt(Course course, Duration time) {
    return Ahead.of(moment(course, time));
  }

  private static Moment moment(Course course, Duration time) {
    Times.refuseImpossible("the question", time);
    if (time.compareTo(course.now) < 0) {
      throw new ReadingRefused(
          Code.G503, "the question", Times.clock(time), Times.clock(course.now));
    }
    return Moment.of(course, time);
  }

  /** The decision of a moment that time has been brought up to. */
  static Decision at(Moment now) {
    Course course = now.course();
    return switch (course.phase) {
      case BEFORE -> new BeforeJudge(now).decide();
      case STAGE -> new StageJudge(now).decide();
      case RECOVERY -> new RecoveryJudge(now).decide();
      case ENDED -> over(course, now.time());
    };
  }

  private static Decision over(Course course, Duration time) {
    return new Decision(
        time,
        course.phase,
        Optional.empty(),
        new Verdict.Over(course.ending.orElse(Ending.DONE)),
        Optional.empty(),
        Firmness.FIRM,
        List.of(),
        List.of(),
        List.of(),
        course.events.size());
  }
}
