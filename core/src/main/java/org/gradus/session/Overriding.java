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
    boolean possible =
        switch (course.phase) {
          case BEFORE -> before(verdict);
          case STAGE -> inStage(verdict, at);
          case RECOVERY ->
              verdict instanceof Verdict.End
                  || verdict instanceof Verdict.Stop
                  || verdict instanceof Verdict.Continue;
          case ENDED -> false;
        };
    if (!possible) {
      throw course.stopped
          ? new VerdictRefused(Code.G602, verdict.word(), "after a stop", "there is only recovery")
          : new VerdictRefused(
              Code.G602,
              verdict.word(),
              "in the phase " + course.phase,
              "look at the phase and at the stage or time named");
    }
  }

  private boolean before(Verdict verdict) {
    return verdict instanceof Verdict.Defer
        || (verdict instanceof Verdict.Ready ready
            && course.protocol.stage(ready.stage()).isPresent());
  }

  private boolean inStage(Verdict verdict, Duration at) {
    Passage present = course.present();
    if (verdict instanceof Verdict.Advance advance) {
      return course
          .protocol
          .stage(advance.stage())
          .filter(stage -> stage.place() > present.stage().place())
          .isPresent();
    } else if (verdict instanceof Verdict.Hold hold) {
      Times.refuseImpossible("the end of a hold", hold.until());
      return hold.until().compareTo(at) > 0 && hold.until().compareTo(present.end()) > 0;
    }
    return verdict instanceof Verdict.Finish
        || verdict instanceof Verdict.Stop
        || verdict instanceof Verdict.Continue;
  }
}
