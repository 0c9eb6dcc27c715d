package org.gradus.session;

import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.protocol.Stage;

/** What a tester may decide against the engine: anything but to continue after a followed stop. */
final class Overriding {

  private final TestState state;

  Overriding(TestState state) {
    this.state = state;
  }

  /**
   * Refuses what is impossible here.
   *
   * @throws VerdictRefused that says what is possible instead
   */
  void refuseUnlessPossible(Event.Overridden event) {
    Verdict verdict = event.verdict();
    Duration at = event.at();
    refuseWithoutReason(verdict.word(), event.reason());
    boolean possible =
        switch (state.phase) {
          case BEFORE -> before(verdict);
          case STAGE -> inStage(verdict, at);
          case RECOVERY ->
              switch (verdict.kind()) {
                case CONTINUE, STOP, END -> true;
                case READY, DEFER, MEASURE, HOLD, CHANGE, ADVANCE, FINISH, NOT_RECOVERED, OVER ->
                    false;
              };
          case ENDED -> false;
        };
    if (!possible) {
      throw new VerdictRefused(Code.G602, verdict.toString(), where(), remedy(verdict, at));
    }
  }

  /**
   * Refuses to break off a test that is over, and to do it without a reason.
   *
   * @throws VerdictRefused that says what is possible instead
   */
  void refuseUnlessPossible(Event.Abandoned event) {
    refuseWithoutReason("to abandon", event.reason());
    if (state.phase == Phase.ENDED) {
      throw new VerdictRefused(Code.G602, "to abandon", where(), "it is over already");
    }
  }

  private static void refuseWithoutReason(String what, String reason) {
    if (reason.isBlank()) {
      throw new VerdictRefused(Code.G602, what, "without a reason", "say why");
    }
  }

  private String where() {
    if (state.recovery.stopped()) {
      return "after a stop";
    }
    return switch (state.phase) {
      case BEFORE -> "before the test";
      case STAGE -> "in " + state.currentRun().stage().id();
      case RECOVERY -> "in recovery";
      case ENDED -> "after the test";
    };
  }

  private String remedy(Verdict verdict, Duration at) {
    return switch (state.phase) {
      case BEFORE -> "begin with one of " + ids(state.protocol.stages()) + ", or defer";
      case STAGE -> inStageInstead(verdict, at);
      case RECOVERY -> "there is only recovery: continue, end or stop";
      case ENDED -> "open a new session";
    };
  }

  private String inStageInstead(Verdict verdict, Duration at) {
    StageRun present = state.currentRun();
    String all = "continue, hold, advance, finish or stop";
    return switch (verdict.kind()) {
      case HOLD -> {
        Duration end = present.end().compareTo(at) > 0 ? present.end() : at;
        yield "hold until later than " + Times.clock(end);
      }
      case ADVANCE -> {
        List<Stage> later =
            state.protocol.stages().stream()
                .filter(stage -> stage.place() > present.stage().place())
                .toList();
        yield later.isEmpty() ? all : "the stages after it are " + ids(later);
      }
      case READY, DEFER, CONTINUE, MEASURE, CHANGE, FINISH, STOP, END, NOT_RECOVERED, OVER -> all;
    };
  }

  private static String ids(List<Stage> stages) {
    return String.join(", ", stages.stream().map(Stage::id).toList());
  }

  private boolean before(Verdict verdict) {
    return switch (verdict.kind()) {
      case DEFER -> true;
      case READY -> state.protocol.stage(((Verdict.Ready) verdict).stage()).isPresent();
      case CONTINUE, MEASURE, HOLD, CHANGE, ADVANCE, FINISH, STOP, END, NOT_RECOVERED, OVER ->
          false;
    };
  }

  private boolean inStage(Verdict verdict, Duration at) {
    return switch (verdict.kind()) {
      case CONTINUE, FINISH, STOP -> true;
      case ADVANCE -> isLater(((Verdict.Advance) verdict).stage());
      case HOLD -> isLonger(((Verdict.Hold) verdict).until(), at);
      case READY, DEFER, MEASURE, CHANGE, END, NOT_RECOVERED, OVER -> false;
    };
  }

  private boolean isLater(String stage) {
    return state
        .protocol
        .stage(stage)
        .filter(next -> next.place() > state.currentRun().stage().place())
        .isPresent();
  }

  private boolean isLonger(Duration until, Duration at) {
    Times.refuseImpossible("the end of a hold", until);
    return until.compareTo(at) > 0 && until.compareTo(state.currentRun().end()) > 0;
  }
}
