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
    Times.refuseImpossible("the question", time);
    if (time.compareTo(course.now) < 0) {
      throw new ReadingRefused(
          Code.G503, "the question", Times.clock(time), Times.clock(course.now));
    }
    return switch (course.phase) {
      case BEFORE -> new BeforeJudge(course, time).decide();
      case STAGE -> new StageJudge(course, time).decide();
      case RECOVERY -> new RecoveryJudge(course, time).decide();
      case ENDED -> over(course, time);
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
