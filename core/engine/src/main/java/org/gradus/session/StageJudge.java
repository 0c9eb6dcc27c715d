package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Unmeasured;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.words.Message;

/**
 * Decides in a stage, in this order: stop, finish at any time, read a second time, go on, the rules
 * of the stage's end.
 */
final class StageJudge {

  private final StateAt now;
  private final TestState state;
  private final StageRun run;
  private final Duration time;

  StageJudge(StateAt now) {
    this.now = now;
    this.state = now.state();
    this.run = state.currentRun();
    this.time = now.time();
  }

  Decision decide() {
    if (state.watches.alarm().isPresent()) {
      Alarm alarm = state.watches.alarm().get();
      Verdict.Stop stop = alarm.verdict();
      if (alarm.isUndecided()) {
        EndOfStage newest = new EndOfStage(state, run, dueTimes().get(0), time);
        return decision(
            newest, stop, Optional.of(alarm.because()), StopMonitor.firmness(state, alarm));
      }
      return decision(stop, Optional.of(alarm.because()), StopMonitor.firmness(state, alarm));
    }
    Optional<ProtocolRule> finish = StopMonitor.finishing(now);
    if (finish.isPresent()) {
      return decision(
          new Verdict.Finish(),
          Optional.of(Reasons.of(finish.get(), now.latest())),
          Firmness.of(doubtsOf(finish.get())));
    }
    Optional<Retake> retake = Retake.of(state, time);
    if (retake.isPresent()) {
      return decision(
          retake.get().verdict(),
          Optional.of(Reasons.of(retake.get().rule(), now.latest())),
          Firmness.of(doubts()));
    }
    if (time.compareTo(run.end()) < 0) {
      Verdict goOn = new Verdict.Continue(run.end());
      return decision(goOn, Optional.empty(), Firmness.of(doubts()));
    }
    return atTheEnd();
  }

  /**
   * The state of a moment, with the stop that is given because the time for a decision is over.
   * Time alone does not take it back.
   */
  static TestState keepUndecided(StateAt now) {
    TestState state = now.state();
    // A reading at the very last moment is still in time.
    boolean due =
        mayBeUndecided(state)
            && state.watches.alarm().isEmpty()
            && now.time().compareTo(state.currentRun().end()) >= 0
            && !now.time().equals(state.waitsUntil());
    if (!due) {
      return state;
    }
    Decision decision = new StageJudge(now).decide();
    Optional<Because> undecided =
        decision.because().filter(why -> why.rule().equals(Alarm.UNDECIDED));
    return undecided.isEmpty() || !(decision.verdict() instanceof Verdict.Stop)
        ? state
        : state.with(
            change ->
                change.watches =
                    change.watches.with(
                        new Alarm(
                            Alarm.UNDECIDED,
                            new Verdict.Stop(false, ""),
                            undecided.get(),
                            decision.firmness(),
                            Optional.empty())));
  }

  /** Whether the exercise is stopped where the end of a stage comes to no decision. */
  static boolean mayBeUndecided(TestState state) {
    return state.phase == Phase.STAGE && state.protocol.unmeasured().thenStop();
  }

  /** The moments from which there may be no decision. */
  static List<Duration> decisions(TestState state) {
    StageRun run = state.currentRun();
    Duration limit = state.waitsUntil();
    List<Duration> moments = new ArrayList<>();
    for (Duration due : run.ends(state.protocol.schedule(run.stage()), limit)) {
      moments.add(run.start().plus(due));
    }
    moments.add(limit.plusNanos(1));
    return moments;
  }

  private Decision atTheEnd() {
    Set<String> flips = doubts();
    List<EndOfStage> ends = new ArrayList<>();
    // The newest due time that can be decided; while a decision waits, due times go on.
    for (Duration due : dueTimes()) {
      EndOfStage end = new EndOfStage(state, run, due, time);
      flips.addAll(end.couldFlip());
      if (end.verdict().isPresent()) {
        return decision(end, end.verdict().get(), end.because(), Firmness.of(flips));
      }
      ends.add(end);
    }
    EndOfStage newest = ends.get(0);
    List<Gap> gaps =
        ends.stream().map(EndOfStage::gaps).filter(g -> !g.isEmpty()).findFirst().orElse(List.of());
    List<Gap> open =
        ends.stream().map(this::open).filter(g -> !g.isEmpty()).findFirst().orElse(List.of());
    Duration limit = state.waitsUntil();
    // Nothing is waited for that no reading can answer.
    if (time.compareTo(limit) < 0 && !open.isEmpty()) {
      Verdict measure = new Verdict.Measure(open, Optional.of(limit));
      return decision(newest, measure, Optional.empty(), Firmness.of(flips));
    }
    return undecided(newest, gaps, Firmness.of(flips));
  }

  // What a reading can still answer before the wait is over. Of a due time that has passed a newer
  // end speaks.
  private List<Gap> open(EndOfStage end) {
    return end.gaps().stream().filter(this::isOpen).toList();
  }

  private boolean isOpen(Gap gap) {
    return gap.settle()
        .match(now -> true, later -> later.time().compareTo(time) > 0, never -> false);
  }

  /**
   * The due time whose readings decide at this moment. If there is but one it is that one, decided
   * or not; of several it is empty when none can decide.
   */
  Optional<Duration> decidedDue() {
    List<Duration> times = dueTimes();
    // A single one needs no evaluation.
    return times.size() == 1
        ? Optional.of(times.get(0))
        : times.stream()
            .filter(due -> new EndOfStage(state, run, due, time).verdict().isPresent())
            .findFirst();
  }

  /** The due time that is decided on, or waited for, once the stage is due to end. */
  Duration newestDue() {
    return decidedDue().orElseGet(() -> dueTimes().get(0));
  }

  private List<Duration> dueTimes() {
    Duration limit = state.waitsUntil();
    Duration last = time.compareTo(limit) < 0 ? time : limit;
    return run.ends(state.protocol.schedule(run.stage()), last);
  }

  private Decision undecided(EndOfStage end, List<Gap> gaps, Firmness firmness) {
    Unmeasured unmeasured = state.protocol.unmeasured();
    SessionMessage why =
        time.compareTo(state.waitsUntil()) < 0
            ? SessionMessage.NO_READING_CAN_DECIDE
            : SessionMessage.NO_DECISION_IN_TIME;
    Because because =
        Reasons.plain(Alarm.UNDECIDED, Message.of(why, gaps.stream().map(Gap::message).toList()));
    Verdict verdict = unmeasured.thenStop() ? new Verdict.Stop(false, "") : new Verdict.Finish();
    return decision(end, verdict, Optional.of(because), firmness);
  }

  private Decision decision(
      EndOfStage end, Verdict verdict, Optional<Because> because, Firmness firmness) {
    // The recommended verdict is not offered again, and beside a stop nothing is offered.
    List<Decision.Offer> offers =
        verdict instanceof Verdict.Stop
            ? List.of()
            : end.offers().stream()
                .filter(offer -> !offer.verdict().equals(verdict))
                .map(offer -> new Decision.Offer(withLoad(offer.verdict()), offer.because()))
                .toList();
    return Decision.of(
        now,
        Optional.of(run.stage().id()),
        withLoad(verdict),
        because,
        firmness,
        offers,
        cautions(end.cautions()),
        end.unchecked(),
        Agendas.inStage(now));
  }

  private Decision decision(Verdict verdict, Optional<Because> because, Firmness firmness) {
    return Decision.of(
        now,
        Optional.of(run.stage().id()),
        withLoad(verdict),
        because,
        firmness,
        List.of(),
        cautions(List.of()),
        List.of(),
        Agendas.inStage(now));
  }

  // What ends the exercise says with which load recovery begins.
  private Verdict withLoad(Verdict verdict) {
    return switch (verdict.kind()) {
      case FINISH -> new Verdict.Finish(RecoveryStage.first(state, false, time));
      case STOP -> {
        Verdict.Stop stop = (Verdict.Stop) verdict;
        yield new Verdict.Stop(
            stop.rest(), stop.instruction(), RecoveryStage.first(state, stop.rest(), time));
      }
      case READY, DEFER, CONTINUE, MEASURE, HOLD, CHANGE, ADVANCE, END, NOT_RECOVERED, OVER ->
          verdict;
    };
  }

  private List<Because> cautions(List<Because> further) {
    List<Because> cautions = new ArrayList<>();
    for (ProtocolRule rule : state.protocol.rules().cautioning()) {
      if (rule.rule().test(now.latest()) == Truth.TRUE) {
        cautions.add(Reasons.of(rule, now.latest()));
      }
    }
    cautions.addAll(further);
    return cautions;
  }

  // What ends the test at any time could have done so a step of a reading sooner, or not yet.
  private Set<String> doubts() {
    return StopMonitor.marginal(state, StopMonitor.ending(state));
  }

  // Beside the rule that finishes the test only a stop would make a difference.
  private Set<String> doubtsOf(ProtocolRule finish) {
    return StopMonitor.marginal(
        state,
        StopMonitor.ending(state).stream()
            .filter(rule -> rule.isStop() || rule.equals(finish))
            .toList());
  }
}
