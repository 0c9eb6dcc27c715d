package org.gradus.session;

import static java.time.Duration.ZERO;

import java.time.Duration;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.check.Demand;
import org.gradus.rule.plan.Frame;

/**
 * Looks at the rules that end the exercise, or recovery, at any time. A stop that holds is kept
 * until it is followed or overridden, so that a host that asks late misses nothing; only a more
 * urgent one takes its place.
 */
final class Watch {

  private final Course course;
  private final Course.Change change;
  private final Frame frame;
  private final Leeway leeway;
  private final Duration time;
  private final Map<String, Duration> news;

  private Watch(
      Course course, Course.Change change, Frame frame, Duration time, Map<String, Duration> news) {
    this.course = course;
    this.change = change;
    this.frame = frame;
    this.leeway = Leeway.around(frame);
    this.time = time;
    this.news = news;
  }

  /** The rules that end something, looked at after every event in this phase. */
  static List<ProtocolRule> ending(Course course) {
    return switch (course.phase) {
      case STAGE -> course.protocol.rules().endingExercise();
      case RECOVERY -> course.protocol.rules().endingRecovery();
      case BEFORE, ENDED -> List.of();
    };
  }

  /** When it is over that something is waited for. */
  static Stream<Duration> waits(Course course) {
    Stream<Duration> readings = course.confirming.values().stream().map(Confirming::until);
    Stream<Duration> doubts = course.doubts.values().stream().map(Doubt::until);
    boolean stops = StageJudge.mayBeUndecided(course) && course.alarm.isEmpty();
    Stream<Duration> decision = stops ? StageJudge.decisions(course) : Stream.empty();
    return Stream.concat(decision, Stream.concat(readings, doubts));
  }

  /** The course at a moment, with the stops that have waited in vain for a second reading. */
  static Course expire(Moment now) {
    Course course = now.course();
    return course.confirming.isEmpty()
        ? course
        : course.withAny(
            change -> {
              ending(course).stream()
                  .filter(rule -> rule.isStop() && hasWaited(rule, course, now.time()))
                  .filter(rule -> outranks(rule, change.alarm))
                  .forEach(rule -> change.alarm = Optional.of(alarm(rule, now.latest(), change)));
              return !change.alarm.equals(course.alarm);
            });
  }

  private static boolean hasWaited(ProtocolRule rule, Course course, Duration time) {
    Confirming waiting = course.confirming.get(rule.id());
    return waiting != null && waiting.counts(time);
  }

  /**
   * The course of a moment after the rules that end something have been looked at.
   *
   * @param frame what is known
   * @param news what was just read or reported, and when it was taken or seen
   */
  static Course look(Moment now, Frame frame, Map<String, Duration> news) {
    Course course = now.course();
    List<ProtocolRule> rules = ending(course);
    if (rules.isEmpty()) {
      return course;
    }
    return course.withAny(
        change -> {
          Watch watch = new Watch(course, change, frame, now.time(), news);
          rules.forEach(watch::look);
          return watch.hasChanged();
        });
  }

  // Everything that a look may change. What stays as it was is the same object (see Copies).
  @SuppressWarnings("ReferenceEquality")
  private boolean hasChanged() {
    return change.confirming != course.confirming
        || change.answered != course.answered
        || change.doubts != course.doubts
        || !change.alarm.equals(course.alarm);
  }

  private void look(ProtocolRule rule) {
    Truth truth = rule.rule().test(frame);
    if (truth == Truth.FALSE) {
      change.confirming = Copies.without(change.confirming, rule.id());
    }
    // What the tester has answered may speak up again once it has ceased to hold, and a stop on
    // fresh grounds.
    if (truth == Truth.FALSE || (rule.isStop() && hasFreshGrounds(rule, truth))) {
      change.answered = Copies.without(change.answered, rule.id());
    }
    doubt(rule);
    if (change.answered.containsKey(rule.id())) {
      return;
    }
    boolean holds = truth == Truth.TRUE;
    if (holds) {
      rule.confirm().ifPresent(wait -> confirm(rule, wait));
    }
    // What waited in vain counts, also when it is not known any more whether it holds.
    Confirming waiting = change.confirming.get(rule.id());
    boolean counts = rule.confirm().isEmpty() ? holds : waiting != null && waiting.counts(time);
    if (rule.isStop() && counts && outranks(rule, change.alarm)) {
      change.alarm = Optional.of(alarm(rule, frame, change));
    }
  }

  // The first stop is kept, but one that takes the load away at once must not hide behind one that
  // only lowers it, and none behind one that is given for want of a decision.
  static boolean outranks(ProtocolRule rule, Optional<Alarm> kept) {
    return kept.isEmpty()
        || kept.get().isUndecided()
        || (rule.then() == ProtocolRule.Then.REST && !kept.get().verdict().rest());
  }

  // What only just did not hold could have, and what did could have failed to: for the moment, for
  // as long as a second reading is waited for, or for good where a stop would have been kept.
  private void doubt(ProtocolRule rule) {
    Outcomes could = leeway.outcomes(rule);
    boolean fails = !could.canHold() && !could.canBeUnknown();
    boolean forNow = rule.isFinish() && rule.confirm().isEmpty();
    boolean surelyStops = rule.isStop() && rule.confirm().isEmpty() && could.alwaysHolds();
    Doubt known = change.doubts.get(rule.id());
    if (known == null && could.isCertain()) {
      return;
    }
    Doubt old =
        known != null && !forNow && !surelyStops
            ? known
            : new Doubt(List.of(), until(rule.confirm().orElse(ZERO)), false);
    Doubt doubt = old.with(leeway.undecided(rule, could), !fails && isKept(rule, old));
    if (doubt.comparisons().isEmpty() || (fails && !doubt.kept())) {
      change.doubts = Copies.without(change.doubts, rule.id());
    } else {
      change.doubts = Copies.with(change.doubts, rule.id(), doubt);
    }
  }

  private boolean isKept(ProtocolRule rule, Doubt old) {
    boolean pending = course.confirming.containsKey(rule.id()) || !old.comparisons().isEmpty();
    boolean counts = pending && (isToldAnew(rule) || time.compareTo(old.until()) >= 0);
    return rule.isStop() && (rule.confirm().isEmpty() || counts);
  }

  private void confirm(ProtocolRule rule, Duration wait) {
    Condition condition = rule.rule().condition().orElseThrow();
    Grounds grounds = new Grounds(condition, frame, course.protocol.wiring());
    Confirming after =
        Confirming.after(change.confirming.get(rule.id()), grounds, news.keySet(), until(wait));
    change.confirming = Copies.with(change.confirming, rule.id(), after);
  }

  // Beyond the time for which a decision may wait no second reading would be accepted.
  private Duration until(Duration wait) {
    Duration wanted = time.plus(wait);
    Duration limit = course.waitsUntil();
    return wanted.compareTo(limit) < 0 ? wanted : limit;
  }

  private boolean isToldAnew(ProtocolRule rule) {
    return isTold(rule, when -> true);
  }

  // What was read or reported of that by which it holds. Where it does not hold there is nothing to
  // keep quiet about.
  private boolean hasFreshGrounds(ProtocolRule rule, Truth truth) {
    Duration since = change.answered.get(rule.id());
    if (since == null || !isTold(rule, when -> when.compareTo(since) >= 0)) {
      return false;
    }
    Set<String> told = new LinkedHashSet<>();
    news.forEach(
        (name, when) -> {
          if (when.compareTo(since) >= 0) {
            told.add(name);
          }
        });
    boolean sign = told.stream().anyMatch(course.protocol.instruments().signs()::containsKey);
    if (sign || truth != Truth.TRUE) {
      return true;
    }
    Condition condition = rule.rule().condition().orElseThrow();
    Set<String> grounds = new Grounds(condition, frame, course.protocol.wiring()).signals();
    return told.stream().anyMatch(grounds::contains);
  }

  private boolean isTold(ProtocolRule rule, Predicate<Duration> counts) {
    Optional<Condition> condition = rule.rule().condition();
    if (condition.isEmpty() || news.isEmpty()) {
      return false;
    }
    for (Demand demand : condition.get().demands()) {
      Duration when = news.get(demand.subject());
      if (when != null && counts.test(when)) {
        return true;
      }
    }
    return false;
  }

  private static Alarm alarm(ProtocolRule rule, Frame frame, Course.Change change) {
    boolean rest = rule.then() == ProtocolRule.Then.REST;
    return new Alarm(
        rule.id(),
        new Verdict.Stop(rest, rule.instruction()),
        Reasons.of(rule, frame),
        new Firmness(comparisons(rule, change.doubts)),
        change.alarm);
  }

  /** Whether the readings' own steps could flip a stop, or put a more urgent one in its place. */
  static Firmness firmness(Course course, Alarm alarm) {
    List<ProtocolRule> moreUrgent =
        ending(course).stream()
            .filter(rule -> rule.isStop() && outranks(rule, Optional.of(alarm)))
            .toList();
    return Firmness.of(
        new LinkedHashSet<>(alarm.firmness().couldFlip()), doubts(course, moreUrgent));
  }

  /** The stops that hold, wherever they wait for no second reading, and those that are kept. */
  static Set<String> stopping(Moment now) {
    Course course = now.course();
    Set<String> stopping = new LinkedHashSet<>();
    for (ProtocolRule rule : ending(course)) {
      Confirming confirming = course.confirming.get(rule.id());
      boolean waits =
          rule.confirm().isPresent() && (confirming == null || !confirming.counts(now.time()));
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
      boolean holds =
          !course.answered.containsKey(rule.id()) && rule.rule().test(now.latest()) == Truth.TRUE;
      Confirming confirming = course.confirming.get(rule.id());
      boolean counts = confirming != null && confirming.counts(now.time());
      if (holds && (rule.confirm().isEmpty() || counts)) {
        return Optional.of(rule);
      }
    }
    return Optional.empty();
  }

  /** What hangs on the steps of readings: whether these rules have ended something by now. */
  static Set<String> doubts(Course course, List<ProtocolRule> rules) {
    Set<String> all = new LinkedHashSet<>();
    if (!course.doubts.isEmpty()) {
      rules.forEach(rule -> all.addAll(comparisons(rule, course.doubts)));
    }
    return all;
  }

  private static List<String> comparisons(ProtocolRule rule, Map<String, Doubt> doubts) {
    return Optional.ofNullable(doubts.get(rule.id())).map(Doubt::comparisons).orElse(List.of());
  }
}
