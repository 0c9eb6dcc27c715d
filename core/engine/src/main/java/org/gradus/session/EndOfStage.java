package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.MeasureLine.IfMissing;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Quantity;
import org.gradus.words.Message;
import org.gradus.words.Name;

/**
 * Evaluates the rules of a stage's end for one due time. The first rule that holds gives the
 * verdict. An unknown rule above it blocks the verdict, unless it would give the same. Before the
 * person advances or holds, the rules that can end the test must be known as far as the protocol
 * waits for their readings.
 */
final class EndOfStage {

  private final TestState state;
  private final StageRun run;
  private final Duration due;
  private final Duration atDue;
  private final Duration time;
  private final Frame frame;
  private final EndingRules ending;
  private final Optional<MeasureLine> missing;

  private final List<Gap> gaps = new ArrayList<>();
  private final List<Decision.Offer> offers = new ArrayList<>();
  private final List<Because> cautions = new ArrayList<>();
  private final Map<String, List<Loading>> loads = new HashMap<>();
  private Optional<Verdict> verdict = Optional.empty();
  private Optional<Because> because = Optional.empty();
  // Whether the exercise ends here only because that was planned.
  private boolean planned;

  EndOfStage(TestState state, StageRun run, Duration due, Duration time) {
    this.state = state;
    this.run = run;
    this.due = due;
    this.atDue = run.start().plus(due);
    this.time = time;
    this.frame = FrameFiller.atDue(state, run, due);
    this.ending = EndingRules.of(state, frame);
    this.missing = missingThatEnds();
    look();
  }

  /** The verdict; empty when readings are missing. */
  Optional<Verdict> verdict() {
    return verdict;
  }

  Optional<Because> because() {
    return because;
  }

  /** What is missing, when there is no verdict. */
  List<Gap> gaps() {
    return verdict.isPresent() ? List.of() : gaps.stream().distinct().toList();
  }

  /** What may be chosen instead; only finishing until all that is waited for is known. */
  List<Decision.Offer> offers() {
    boolean mayGoOn = verdict.isPresent() && ending.waitedFor().isEmpty();
    return offers.stream()
        .filter(offer -> mayGoOn || offer.verdict() instanceof Verdict.Finish)
        .filter(offer -> verdict.filter(offer.verdict()::equals).isEmpty())
        .toList();
  }

  List<Because> cautions() {
    return cautions;
  }

  List<Decision.Unchecked> unchecked() {
    return ending.unchecked();
  }

  private void look() {
    Set<Verdict> open = new LinkedHashSet<>();
    boolean reached = false;
    for (ProtocolRule rule : state.protocol.rulesAtEndOf(run.stage())) {
      Truth truth = rule.rule().test(frame);
      if (!judges(rule)) {
        aside(rule, truth);
      } else if (!reached && truth != Truth.FALSE && isLeft(rule)) {
        open.add(meant(rule, atDue));
        reached = truth == Truth.TRUE;
        if (!reached) {
          gaps.addAll(Reasons.gaps(rule, frame));
        } else if (open.size() == 1) {
          verdict = Optional.of(meant(rule, time));
          because = Optional.of(Reasons.of(rule, frame));
          planned = rule.rule().condition().isEmpty() && !goesOn();
        }
      }
    }
    if (missing.isPresent()) {
      List<Name> signals = missing.get().signals().stream().map(Name::new).toList();
      verdict = Optional.of(new Verdict.Finish());
      because = Optional.of(Reasons.plain("missing", Message.of(SessionMessage.NOT_READ, signals)));
    } else if (goesOn() && !ending.waitedFor().isEmpty()) {
      waitFor(ending.waitedFor());
    } else if (planned && time.compareTo(state.waitsUntil()) < 0) {
      List<Gap> needed = neededByEstimates();
      if (!needed.isEmpty()) {
        waitFor(needed);
      }
    }
  }

  private void waitFor(List<Gap> readings) {
    verdict = Optional.empty();
    because = Optional.empty();
    gaps.addAll(readings);
  }

  // At the planned end of the exercise the readings are asked for that the result needs. A rule
  // that finishes for a reason does not wait for them.
  private List<Gap> neededByEstimates() {
    Set<String> asked = state.protocol.readByEstimates();
    List<Gap> needed = new ArrayList<>();
    for (MeasureLine line : state.protocol.schedule(run.stage()).lines()) {
      Optional<Duration> last = line.lastDue(run.stretch(), due);
      if (line.ifMissing() == IfMissing.WAIT && last.isPresent()) {
        line.signals().stream()
            .filter(asked::contains)
            .filter(signal -> run.slot(signal, last.get()).isEmpty())
            .forEach(signal -> needed.add(Gap.now(signal, Gap.Cause.NEVER_TAKEN)));
      }
    }
    return needed;
  }

  // Finishing for a reason never waits; advancing and holding do.
  private boolean goesOn() {
    return verdict.isPresent() && !(verdict.get() instanceof Verdict.Finish);
  }

  private static boolean judges(ProtocolRule rule) {
    return !rule.action().isAside();
  }

  private Optional<MeasureLine> missingThatEnds() {
    return state.protocol.schedule(run.stage()).lines().stream()
        .filter(line -> line.ifMissing() == IfMissing.FINISH)
        .filter(
            line ->
                line.lastDue(run.stretch(), due)
                    .filter(
                        at ->
                            line.signals().stream()
                                .anyMatch(signal -> run.slot(signal, at).isEmpty()))
                    .isPresent())
        .findFirst();
  }

  private void aside(ProtocolRule rule, Truth truth) {
    if (truth != Truth.TRUE) {
      return;
    }
    if (rule.action().kind() == Action.Kind.OFFER) {
      if (isLeft(rule)) {
        offers.add(new Decision.Offer(meant(rule, time), Reasons.of(rule, frame)));
      }
    } else {
      cautions.add(Reasons.of(rule, frame));
    }
  }

  // A hold that is used up is skipped, and so is a change that leads beyond what is possible.
  private boolean isLeft(ProtocolRule rule) {
    Action action = rule.action().meant();
    return switch (action.kind()) {
      case HOLD -> run.holds() < ((Action.Hold) action).times();
      case CHANGE ->
          run.changes() < ((Action.Change) action).times()
              && changed((Action.Change) action, rule).isPresent();
      case STOP, FINISH, ADVANCE, OFFER, CAUTION, DEFER, START_AT, END -> true;
    };
  }

  private Optional<List<Loading>> changed(Action.Change change, ProtocolRule rule) {
    Quantity step = rule.rule().step().orElseThrow();
    return Loads.changed(state.protocol, run.loads(), change.load().text(), step);
  }

  // Verdicts are compared as they are at the due time: given late, two holds of different length
  // may end at the same time.
  private Verdict meant(ProtocolRule rule, Duration given) {
    Action action = rule.action().meant();
    return switch (action.kind()) {
      case HOLD -> new Verdict.Hold(heldUntil(rule.rule().pause().orElseThrow(), given));
      case CHANGE ->
          new Verdict.Change(run.stage().id(), changed((Action.Change) action, rule).orElseThrow());
      case ADVANCE ->
          nextStage((Action.Advance) action)
              .<Verdict>map(stage -> new Verdict.Advance(stage.id(), loads(stage)))
              .orElse(new Verdict.Finish());
      case FINISH -> new Verdict.Finish();
      case STOP, OFFER, CAUTION, DEFER, START_AT, END ->
          throw new IllegalStateException(
              rule.id() + " cannot decide at the end of a stage: " + action.word());
    };
  }

  private List<Loading> loads(Stage stage) {
    return loads.computeIfAbsent(stage.id(), id -> Loads.of(state, stage, time));
  }

  // In step with the schedule of readings, and never in the past.
  private Duration heldUntil(Duration pause, Duration given) {
    Duration until = atDue.plus(pause);
    long over = until.compareTo(given) > 0 ? 0 : given.minus(until).dividedBy(pause) + 1;
    return until.plus(pause.multipliedBy(over));
  }

  // To advance beyond the last stage is to finish.
  private Optional<Stage> nextStage(Action.Advance advance) {
    if (advance.to().isPresent()) {
      return state.protocol.stage(advance.to().get().text());
    }
    int next = run.stage().place() + 1;
    List<Stage> stages = state.protocol.stages();
    return next < stages.size() ? Optional.of(stages.get(next)) : Optional.empty();
  }

  /** The comparisons that could give another verdict, or one instead of none. */
  Set<String> couldFlip() {
    if (missing.isPresent()) {
      return Set.of();
    }
    MarginAnalysis margins = MarginAnalysis.around(frame);
    Set<String> flips = new LinkedHashSet<>();
    Set<Verdict> possible = new LinkedHashSet<>();
    for (ProtocolRule rule : state.protocol.rulesAtEndOf(run.stage())) {
      if (judges(rule) && isLeft(rule)) {
        Outcomes could = margins.outcomes(rule);
        if (could.canHold() || could.canBeUnknown()) {
          possible.add(meant(rule, atDue));
          flips.addAll(margins.undecided(rule, could));
        }
        if (could.alwaysHolds()) {
          break;
        }
      }
    }
    // As long as every rule that could be reached gives the same, it does not matter which is.
    if (possible.size() == 1) {
      flips.clear();
    }
    if (verdict.isEmpty() || goesOn()) {
      for (ProtocolRule rule : StopMonitor.ending(state)) {
        Outcomes could = margins.outcomes(rule);
        if (could.canBeUnknown()) {
          flips.addAll(margins.undecided(rule, could));
        }
      }
    }
    return flips;
  }
}
