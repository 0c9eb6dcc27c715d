package org.gradus.session;

import static java.time.Duration.ZERO;

import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
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

  private final Course course;
  private final Course.Change change;
  private final Frame frame;
  private final Leeway leeway;
  private final Duration time;
  private final Map<String, Duration> news;

  private StopMonitor(
      Course course, Course.Change change, Frame frame, Duration time, Map<String, Duration> news) {
    this.course = course;
    this.change = change;
    this.frame = frame;
    this.leeway = Leeway.around(frame);
    this.time = time;
    this.news = news;
  }

  /** The rules that can end something in this phase. */
  static List<ProtocolRule> ending(Course course) {
    return switch (course.phase) {
      case STAGE -> course.protocol.rules().endingExercise();
      case RECOVERY -> course.protocol.rules().endingRecovery();
      case BEFORE, ENDED -> List.of();
    };
  }

  /** The moments at which waiting for something is over. */
  static Stream<Duration> waits(Course course) {
    Stream<Duration> watches = course.watches.values().stream().flatMap(RuleWatch::ends);
    boolean stops = StageJudge.mayBeUndecided(course) && course.alarm.isEmpty();
    return stops ? Stream.concat(StageJudge.decisions(course), watches) : watches;
  }

  /** The course of a moment, with the stops that have waited in vain for a second reading. */
  static Course expire(Moment now) {
    Course course = now.course();
    return course.with(
        change -> {
          for (ProtocolRule rule : ending(course)) {
            boolean counts = rule.isStop() && course.watch(rule).counts(now.time());
            if (counts && outranks(rule, change.alarm)) {
              change.alarm = Optional.of(alarm(rule, now.latest(), change));
            }
          }
        });
  }

  /**
   * The course of a moment after the rules that can end something have been evaluated.
   *
   * @param frame what is known
   * @param news what was just read or reported, and when it was taken or seen
   */
  static Course look(Moment now, Frame frame, Map<String, Duration> news) {
    Course course = now.course();
    return course.with(
        change -> {
          StopMonitor monitor = new StopMonitor(course, change, frame, now.time(), news);
          ending(course).forEach(monitor::look);
        });
  }

  private void look(ProtocolRule rule) {
    Truth truth = rule.rule().test(frame);
    RuleWatch watch = change.watch(rule);
    if (truth == Truth.FALSE) {
      watch = watch.withoutSecond().withoutHeard();
    } else if (rule.isStop() && hasFreshGrounds(rule, watch, truth)) {
      watch = watch.withoutHeard();
    }
    watch = watch.with(marginal(rule, watch));
    if (truth == Truth.TRUE && rule.confirm().isPresent() && watch.heard().isEmpty()) {
      watch = watch.with(second(rule, watch, rule.confirm().get()));
    }
    change.watch(rule.id(), watch);
    // A stop that waited in vain counts, also when it is no longer known whether it holds.
    boolean counts = rule.confirm().isEmpty() ? truth == Truth.TRUE : watch.counts(time);
    if (rule.isStop() && counts && watch.heard().isEmpty() && outranks(rule, change.alarm)) {
      change.alarm = Optional.of(alarm(rule, frame, change));
    }
  }

  // The first stop is kept, but one that takes the load away at once must not hide behind one that
  // only lowers it, and none behind one that is given for want of a decision.
  private static boolean outranks(ProtocolRule rule, Optional<Alarm> kept) {
    return kept.isEmpty()
        || kept.get().isUndecided()
        || (rule.then() == ProtocolRule.Then.REST && !kept.get().verdict().rest());
  }

  // What only just did not hold could have, and what did could have failed to: for the moment, for
  // as long as a second reading is waited for, or for good where a stop would have been kept.
  private Optional<MarginalRule> marginal(ProtocolRule rule, RuleWatch watch) {
    Outcomes could = leeway.outcomes(rule);
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
    MarginalRule now = before.with(leeway.undecided(rule, could), !fails && isKept(rule, before));
    return Optional.of(now)
        .filter(open -> !open.comparisons().isEmpty() && (!fails || open.kept()));
  }

  private boolean isKept(ProtocolRule rule, MarginalRule before) {
    if (!rule.isStop() || rule.confirm().isEmpty()) {
      return rule.isStop();
    }
    boolean isPending = course.watch(rule).second().isPresent() || !before.comparisons().isEmpty();
    return isPending && (!told(rule, ZERO).isEmpty() || time.compareTo(before.until()) >= 0);
  }

  private SecondReading second(ProtocolRule rule, RuleWatch watch, Duration wait) {
    return SecondReading.after(watch.second(), grounds(rule), news.keySet(), until(wait));
  }

  private Grounds grounds(ProtocolRule rule) {
    Condition condition = rule.rule().condition().orElseThrow();
    return new Grounds(condition, frame, course.protocol.wiring());
  }

  // Beyond the time for which a decision may wait no second reading would be accepted.
  private Duration until(Duration wait) {
    Duration wanted = time.plus(wait);
    Duration limit = course.waitsUntil();
    return wanted.compareTo(limit) < 0 ? wanted : limit;
  }

  // Whether something was read or reported, since the tester answered a rule, by which it holds.
  // Where it does not hold there is nothing to keep quiet about.
  private boolean hasFreshGrounds(ProtocolRule rule, RuleWatch watch, Truth truth) {
    Set<String> told = watch.heard().map(since -> told(rule, since)).orElse(Set.of());
    if (told.isEmpty()) {
      return false;
    }
    boolean isSign = told.stream().anyMatch(course.protocol.instruments().signs()::containsKey);
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

  private static Alarm alarm(ProtocolRule rule, Frame frame, Course.Change change) {
    boolean rest = rule.then() == ProtocolRule.Then.REST;
    return new Alarm(
        rule.id(),
        new Verdict.Stop(rest, rule.instruction()),
        Reasons.of(rule, frame),
        new Firmness(change.watch(rule).comparisons()),
        change.alarm);
  }

  /** Whether the readings' own steps could flip a stop, or put a more urgent one in its place. */
  static Firmness firmness(Course course, Alarm alarm) {
    List<ProtocolRule> moreUrgent =
        ending(course).stream()
            .filter(rule -> rule.isStop() && outranks(rule, Optional.of(alarm)))
            .toList();
    return Firmness.of(
        new LinkedHashSet<>(alarm.firmness().couldFlip()), marginal(course, moreUrgent));
  }

  /** The stops that hold, wherever they wait for no second reading, and those that are kept. */
  static Set<String> stopping(Moment now) {
    Course course = now.course();
    Set<String> stopping = new LinkedHashSet<>();
    for (ProtocolRule rule : ending(course)) {
      boolean waits = rule.confirm().isPresent() && !course.watch(rule).counts(now.time());
      if (rule.isStop() && !waits && rule.rule().test(now.latest()) == Truth.TRUE) {
        stopping.add(rule.id());
      }
    }
    for (Optional<Alarm> kept = course.alarm; kept.isPresent(); kept = kept.get().behind()) {
      stopping.add(kept.get().rule());
    }
    return stopping;
  }

  /** The first finishing rule that holds and needs no further reading. */
  static Optional<ProtocolRule> finishing(Moment now) {
    Course course = now.course();
    for (ProtocolRule rule : course.protocol.rules().finishing()) {
      RuleWatch watch = course.watch(rule);
      boolean counts = rule.confirm().isEmpty() || watch.counts(now.time());
      if (counts && watch.heard().isEmpty() && rule.rule().test(now.latest()) == Truth.TRUE) {
        return Optional.of(rule);
      }
    }
    return Optional.empty();
  }

  /** The comparisons on which it hangs whether these rules have ended something by now. */
  static Set<String> marginal(Course course, List<ProtocolRule> rules) {
    Set<String> all = new LinkedHashSet<>();
    rules.forEach(rule -> all.addAll(course.watch(rule).comparisons()));
    return all;
  }
}
