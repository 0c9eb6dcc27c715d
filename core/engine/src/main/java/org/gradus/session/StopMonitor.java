package org.gradus.session;

import static java.time.Duration.ZERO;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;

/**
 * Evaluates the rules that can end the exercise, or recovery, at any time. A stop that holds is
 * kept until it is followed or overridden, so that a host that asks late misses nothing; only a
 * more urgent one takes its place.
 */
final class StopMonitor {

  private final TestState state;
  private final TestState.Change change;
  private final Frame frame;
  private final MarginAnalysis margins;
  private final Duration time;
  private final Map<String, Duration> news;

  private StopMonitor(
      TestState state,
      TestState.Change change,
      Frame frame,
      Duration time,
      Map<String, Duration> news) {
    this.state = state;
    this.change = change;
    this.frame = frame;
    this.margins = MarginAnalysis.around(frame);
    this.time = time;
    this.news = news;
  }

  /** The rules that can end something in this phase. */
  static List<ProtocolRule> ending(TestState state) {
    return switch (state.phase) {
      case STAGE -> state.protocol.rules().endingExercise();
      case RECOVERY -> state.protocol.rules().endingRecovery();
      case BEFORE, ENDED -> List.of();
    };
  }

  /** The moments at which waiting for something is over. */
  static List<Duration> waits(TestState state) {
    List<Duration> waits = new ArrayList<>();
    for (RuleWatch watch : state.watches.byRule().values()) {
      watch.second().ifPresent(second -> waits.add(second.until()));
      watch.marginal().ifPresent(marginal -> waits.add(marginal.until()));
    }
    if (StageJudge.mayBeUndecided(state) && state.watches.alarm().isEmpty()) {
      waits.addAll(StageJudge.decisions(state));
    }
    return waits;
  }

  /** The state of a moment, with the stops that have waited in vain for a second reading. */
  static TestState expire(StateAt now) {
    TestState state = now.state();
    return state.with(
        change -> {
          for (ProtocolRule rule : ending(state)) {
            boolean counts = rule.isStop() && state.watches.of(rule).counts(now.time());
            if (counts && outranks(rule, change.watches.alarm())) {
              change.watches = change.watches.with(alarm(rule, now.latest(), change));
            }
          }
        });
  }

  /**
   * The state of a moment after the rules that can end something have been evaluated.
   *
   * @param frame what is known
   * @param news what was just read or reported, and when it was taken or seen
   */
  static TestState look(StateAt now, Frame frame, Map<String, Duration> news) {
    TestState state = now.state();
    return state.with(
        change -> {
          StopMonitor monitor = new StopMonitor(state, change, frame, now.time(), news);
          ending(state).forEach(monitor::look);
        });
  }

  private void look(ProtocolRule rule) {
    Truth truth = rule.rule().test(frame);
    RuleWatch watch = change.watches.of(rule);
    if (truth == Truth.FALSE) {
      watch = watch.withoutSecond().withoutHeard();
    } else if (rule.isStop() && hasFreshGrounds(rule, watch, truth)) {
      watch = watch.withoutHeard();
    }
    watch = watch.with(marginal(rule, watch));
    if (truth == Truth.TRUE && rule.confirm().isPresent() && watch.heard().isEmpty()) {
      watch = watch.with(second(rule, watch, rule.confirm().get()));
    }
    change.watches = change.watches.with(rule.id(), watch);
    // A stop that waited in vain counts, also when it is no longer known whether it holds.
    boolean counts = rule.confirm().isEmpty() ? truth == Truth.TRUE : watch.counts(time);
    if (rule.isStop()
        && counts
        && watch.heard().isEmpty()
        && outranks(rule, change.watches.alarm())) {
      change.watches = change.watches.with(alarm(rule, frame, change));
    }
  }

  // The first stop is kept, but one that takes the load away at once must not hide behind one that
  // only lowers it, and none behind one that is given for want of a decision.
  private static boolean outranks(ProtocolRule rule, Optional<Alarm> kept) {
    return kept.isEmpty()
        || kept.get().isUndecided()
        || (rule.then() == ProtocolRule.Then.REST && !kept.get().verdict().rest());
  }

  // A rule that only just did not hold could have held, and the reverse. This is remembered for the
  // moment, while a second reading is waited for, or for good where a stop would have been kept.
  private Optional<MarginalRule> marginal(ProtocolRule rule, RuleWatch watch) {
    Outcomes could = margins.outcomes(rule);
    if (watch.marginal().isEmpty() && could.isCertain()) {
      return Optional.empty();
    }
    boolean fails = !could.canHold() && !could.canBeUnknown();
    boolean forNow = rule.isFinish() && rule.confirm().isEmpty();
    boolean surelyStops = rule.isStop() && rule.confirm().isEmpty() && could.alwaysHolds();
    MarginalRule before =
        watch
            .marginal()
            .filter(known -> !forNow && !surelyStops)
            .orElseGet(() -> MarginalRule.none(until(rule.confirm().orElse(ZERO))));
    MarginalRule now = before.with(margins.undecided(rule, could), !fails && isKept(rule, before));
    return Optional.of(now)
        .filter(open -> !open.comparisons().isEmpty() && (!fails || open.kept()));
  }

  private boolean isKept(ProtocolRule rule, MarginalRule before) {
    if (!rule.isStop() || rule.confirm().isEmpty()) {
      return rule.isStop();
    }
    boolean isPending =
        state.watches.of(rule).second().isPresent() || !before.comparisons().isEmpty();
    return isPending && (!told(rule, ZERO).isEmpty() || time.compareTo(before.until()) >= 0);
  }

  private SecondReading second(ProtocolRule rule, RuleWatch watch, Duration wait) {
    return SecondReading.after(watch.second(), grounds(rule), news.keySet(), until(wait));
  }

  private Grounds grounds(ProtocolRule rule) {
    Condition condition = rule.rule().condition().orElseThrow();
    return new Grounds(condition, frame, state.protocol.wiring());
  }

  // Beyond the time for which a decision may wait no second reading would be accepted.
  private Duration until(Duration wait) {
    Duration wanted = time.plus(wait);
    Duration limit = state.waitsUntil();
    return wanted.compareTo(limit) < 0 ? wanted : limit;
  }

  // Whether something was read or reported, since the tester answered a rule, by which it holds.
  // A rule that does not hold needs no silence.
  private boolean hasFreshGrounds(ProtocolRule rule, RuleWatch watch, Truth truth) {
    if (watch.heard().isEmpty()) {
      return false;
    }
    Set<String> told = told(rule, watch.heard().get());
    if (told.isEmpty()) {
      return false;
    }
    boolean isSign = told.stream().anyMatch(state.protocol.instruments().signs()::containsKey);
    return isSign
        || truth != Truth.TRUE
        || grounds(rule).signals().stream().anyMatch(told::contains);
  }

  // What was just told, as it was from a time on, of what a rule asks for.
  private Set<String> told(ProtocolRule rule, Duration since) {
    return rule.rule().condition().stream()
        .flatMap(condition -> condition.demands().stream())
        .map(Demand::subject)
        .filter(name -> news.containsKey(name) && news.get(name).compareTo(since) >= 0)
        .collect(Collectors.toSet());
  }

  private static Alarm alarm(ProtocolRule rule, Frame frame, TestState.Change change) {
    boolean rest = rule.then() == ProtocolRule.Then.REST;
    return new Alarm(
        rule.id(),
        new Verdict.Stop(rest, rule.instruction()),
        Reasons.of(rule, frame),
        new Firmness(change.watches.of(rule).comparisons()),
        change.watches.alarm());
  }

  /** Whether the readings' own steps could flip a stop, or put a more urgent one in its place. */
  static Firmness firmness(TestState state, Alarm alarm) {
    List<ProtocolRule> moreUrgent =
        ending(state).stream()
            .filter(rule -> rule.isStop() && outranks(rule, Optional.of(alarm)))
            .toList();
    return Firmness.of(
        new LinkedHashSet<>(alarm.firmness().couldFlip()), marginal(state, moreUrgent));
  }

  /** The stops that hold, wherever they wait for no second reading, and those that are kept. */
  static Set<String> stopping(StateAt now) {
    TestState state = now.state();
    Set<String> stopping = new LinkedHashSet<>();
    for (ProtocolRule rule : ending(state)) {
      boolean waits = rule.confirm().isPresent() && !state.watches.of(rule).counts(now.time());
      if (rule.isStop() && !waits && rule.rule().test(now.latest()) == Truth.TRUE) {
        stopping.add(rule.id());
      }
    }
    for (Optional<Alarm> kept = state.watches.alarm();
        kept.isPresent();
        kept = kept.get().behind()) {
      stopping.add(kept.get().rule());
    }
    return stopping;
  }

  /** The first finishing rule that holds and needs no further reading. */
  static Optional<ProtocolRule> finishing(StateAt now) {
    TestState state = now.state();
    for (ProtocolRule rule : state.protocol.rules().finishing()) {
      RuleWatch watch = state.watches.of(rule);
      boolean counts = rule.confirm().isEmpty() || watch.counts(now.time());
      if (counts && watch.heard().isEmpty() && rule.rule().test(now.latest()) == Truth.TRUE) {
        return Optional.of(rule);
      }
    }
    return Optional.empty();
  }

  /** The comparisons on which it hangs whether these rules have ended something by now. */
  static Set<String> marginal(TestState state, List<ProtocolRule> rules) {
    Set<String> all = new LinkedHashSet<>();
    for (ProtocolRule rule : rules) {
      all.addAll(state.watches.of(rule).comparisons());
    }
    return all;
  }
}
