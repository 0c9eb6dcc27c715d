package org.gradus.session;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.diagnostic.Suggestion;
import org.gradus.protocol.Sign;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/** Applies what the tester reports: signs, the load that is really set, a stage that is done. */
final class TesterReports {

  private TesterReports() {}

  static void withdraw(String name, TestState state, TestState.Change change) {
    Sign sign = known(name, state);
    if (!state.signs.wasReported(sign.name())) {
      throw new ReadingRefused(
          Code.G510,
          new FileText(sign.name()),
          SessionMessage.AS_WITHDRAWN,
          SessionMessage.NEVER_REPORTED);
    }
    change.signs = change.signs.withdrawn(sign.name());
  }

  private static Sign known(String name, TestState state) {
    Sign sign = state.protocol.instruments().signs().get(name);
    if (sign == null) {
      Set<String> signs = state.protocol.instruments().signs().keySet();
      Message otherwise = Message.of(SessionMessage.SIGNS_ARE, List.copyOf(signs));
      throw new ReadingRefused(
          Code.G506, name, SessionMessage.A_REPORT, Suggestion.help(name, signs, otherwise));
    }
    return sign;
  }

  static void report(Event.Reported reported, TestState state, TestState.Change change) {
    Sign sign = known(reported.sign(), state);
    OptionalInt grade = reported.grade();
    boolean fits =
        sign.top().isPresent() == grade.isPresent()
            && grade.orElse(0) <= sign.top().orElse(0)
            && grade.orElse(0) >= 0;
    if (!fits) {
      Message wanted =
          sign.top().isPresent()
              ? Message.of(SessionMessage.GIVE_A_GRADE, sign.top().getAsInt())
              : Message.of(SessionMessage.GIVE_NO_GRADE);
      throw new ReadingRefused(
          Code.G508,
          new FileText(sign.name()),
          grade.isPresent()
              ? Message.of(SessionMessage.GRADE, grade.getAsInt())
              : SessionMessage.WITHOUT_A_GRADE,
          wanted);
    }
    change.signs = change.signs.reported(sign.name(), grade.orElse(1));
  }

  static void loadSet(Event.LoadSet set, TestState state, TestState.Change change) {
    if (state.phase != Phase.STAGE) {
      throw new ReadingRefused(
          Code.G510,
          SessionMessage.A_LOAD,
          SessionMessage.OUTSIDE_A_STAGE,
          SessionMessage.WHILE_STAGE_LASTS);
    }
    StageRun run = state.currentRun();
    List<Loading> now = run.loadsFrom(set.at());
    Optional<Loading> old =
        now.stream()
            .filter(load -> load.name().equals(set.load().name()))
            .filter(load -> load.value().kind() == set.load().value().kind())
            .findFirst();
    if (old.isEmpty()) {
      throw new ReadingRefused(
          Code.G508,
          new FileText(set.load().name()),
          set.load().value(),
          Message.of(SessionMessage.STAGE_LOAD_IS, Loading.message(now)));
    }
    LoadValidator plausible = new LoadValidator(state.protocol);
    plausible.check(List.of(set.load()));
    // The present value of the ramp is no change; a new ramp is.
    boolean same = old.get().value().isSameAs(set.load().value());
    if (!same || set.load().ramp().isPresent()) {
      List<Loading> changed = Loads.set(state, run.loads(), set.load());
      plausible.check(changed);
      change.replace(state.runs.size() - 1, run.with(changed, set.at()));
    }
  }

  static void done(Event.Done done, TestState state, TestState.Change change) {
    Times.refuseImpossible(SessionMessage.THE_END, done.reached());
    boolean inStage = state.phase == Phase.STAGE && state.currentRun().stage().untilDone();
    if (!inStage) {
      throw new ReadingRefused(
          Code.G510, "done", SessionMessage.HERE, SessionMessage.ONLY_UNTIL_DONE);
    }
    StageRun run = state.currentRun();
    if (run.done().isPresent()) {
      throw new ReadingRefused(
          Code.G510, "done", SessionMessage.A_SECOND_TIME, SessionMessage.REJECT_AND_TELL);
    } else if (done.reached().compareTo(done.at()) > 0) {
      throw new ReadingRefused(
          Code.G504, SessionMessage.THE_END, Times.clock(done.reached()), Times.clock(done.at()));
    } else if (done.reached().compareTo(run.start()) <= 0
        || done.reached().compareTo(run.end()) > 0) {
      throw new ReadingRefused(
          Code.G502,
          SessionMessage.THE_END,
          Times.clock(done.reached()),
          Message.of(SessionMessage.RANGE, Times.clock(run.start()), Times.clock(run.end())));
    }
    StageRun ended = run.doneAt(done.reached());
    change.replace(state.runs.size() - 1, ended);
    ReadingPlacer.whenDone(state, change, ended);
  }
}
