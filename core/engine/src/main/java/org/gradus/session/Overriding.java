package org.gradus.session;

import java.time.Duration;
import java.util.List;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.VerdictRefused;
import org.gradus.protocol.Stage;
import org.gradus.words.FileText;
import org.gradus.words.Message;

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
    refuseWithoutReason(verdict.wordMessage(), event.reason());
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
      throw new VerdictRefused(Code.G602, verdict.message(), where(), remedy(verdict, at));
    }
  }

  /**
   * Refuses to break off a test that is over, and to do it without a reason.
   *
   * @throws VerdictRefused that says what is possible instead
   */
  void refuseUnlessPossible(Event.Abandoned event) {
    refuseWithoutReason(Message.of(SessionMessage.TO_ABANDON), event.reason());
    if (state.phase == Phase.ENDED) {
      throw new VerdictRefused(
          Code.G602, SessionMessage.TO_ABANDON, where(), SessionMessage.OVER_ALREADY);
    }
  }

  private static void refuseWithoutReason(Message what, String reason) {
    if (reason.isBlank()) {
      throw new VerdictRefused(
          Code.G602, what, SessionMessage.WITHOUT_A_REASON, SessionMessage.SAY_WHY);
    }
  }

  private Message where() {
    if (state.recovery.stopped()) {
      return Message.of(SessionMessage.AFTER_A_STOP);
    }
    return switch (state.phase) {
      case BEFORE -> Message.of(SessionMessage.BEFORE_THE_TEST);
      case STAGE ->
          Message.of(SessionMessage.IN_STAGE, new FileText(state.currentRun().stage().id()));
      case RECOVERY -> Message.of(SessionMessage.IN_RECOVERY);
      case ENDED -> Message.of(SessionMessage.AFTER_THE_TEST);
    };
  }

  private Message remedy(Verdict verdict, Duration at) {
    return switch (state.phase) {
      case BEFORE -> Message.of(SessionMessage.BEGIN_WITH, ids(state.protocol.stages()));
      case STAGE -> inStageInstead(verdict, at);
      case RECOVERY -> Message.of(SessionMessage.ONLY_RECOVERY);
      case ENDED -> Message.of(SessionMessage.NEW_SESSION);
    };
  }

  private Message inStageInstead(Verdict verdict, Duration at) {
    StageRun present = state.currentRun();
    Message all = Message.of(SessionMessage.IN_STAGE_INSTEAD);
    return switch (verdict.kind()) {
      case HOLD -> {
        Duration end = present.end().compareTo(at) > 0 ? present.end() : at;
        yield Message.of(SessionMessage.HOLD_LONGER, Times.clock(end));
      }
      case ADVANCE -> {
        List<Stage> later =
            state.protocol.stages().stream()
                .filter(stage -> stage.place() > present.stage().place())
                .toList();
        yield later.isEmpty() ? all : Message.of(SessionMessage.STAGES_AFTER, ids(later));
      }
      case READY, DEFER, CONTINUE, MEASURE, CHANGE, FINISH, STOP, END, NOT_RECOVERED, OVER -> all;
    };
  }

  private static List<FileText> ids(List<Stage> stages) {
    return stages.stream().map(Stage::id).map(FileText::new).toList();
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
    Times.refuseImpossible(SessionMessage.THE_END_OF_A_HOLD, until);
    return until.compareTo(at) > 0 && until.compareTo(state.currentRun().end()) > 0;
  }
}
