package org.gradus.session;

import java.time.Duration;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.VerdictRefused;

/** What a tester may decide against the engine: anything but going on after a followed stop. */
final class Overriding {

  private final Course course;

  Overriding(Course course) {
    this.course = course;
  }

  void refuseUnlessPossible(Verdict verdict, Duration at) {
    if (course.stopped && !(verdict instanceof Verdict.End)) {
      throw new VerdictRefused(Code.G602, verdict.word(), "after a stop", "there is only recovery");
    }
    boolean possible =
        switch (course.phase) {
          case BEFORE ->
              verdict instanceof Verdict.Ready ready
                  && course.protocol.stage(ready.stage()).isPresent();
          case STAGE -> inStage(verdict, at);
          case RECOVERY -> verdict instanceof Verdict.End || verdict instanceof Verdict.Stop;
          case ENDED -> false;
        };
    if (!possible) {
      throw new VerdictRefused(
          Code.G602,
          verdict.word(),
          "in the phase " + course.phase,
          "look at the phase and the stage named");
    }
  }

  private boolean inStage(Verdict verdict, Duration at) {
    if (verdict instanceof Verdict.Advance advance) {
      int here = course.present().stage().place();
      return course
          .protocol
          .stage(advance.stage())
          .filter(stage -> stage.place() > here)
          .isPresent();
    }
    return verdict instanceof Verdict.Finish
        || verdict instanceof Verdict.Stop
        || (verdict instanceof Verdict.Hold hold && hold.until().compareTo(at) > 0);
  }
}
