package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Unmeasured;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Truth;
import org.gradus.rule.syntax.Action;

/**
 * Decides in a stage, in this order: stop, finish at any time, go on, the rules of the stage's end.
 */
final class StageJudge {

  private final Course course;
  private final Passage passage;
  private final Duration time;
  private final Frame latest;

  StageJudge(Course course, Duration time) {
    this.course = Watch.expire(course, time);
    this.passage = course.present();
    this.time = time;
    this.latest = Sight.latest(course, time);
  }

  Decision decide() {
    Optional<Alarm> alarm = course.alarm.or(this::alarmNow);
    if (alarm.isPresent()) {
      return decision(
          alarm.get().verdict(), Optional.of(alarm.get().because()), alarm.get().firmness());
    }
    Optional<ProtocolRule> finish = finishNow();
    if (finish.isPresent()) {
      return decision(
          new Verdict.Finish(), Optional.of(Reasons.of(finish.get(), latest)), flips(finish));
    }
    List<ProtocolRule> confirming = Watch.confirming(course, time);
    if (!confirming.isEmpty()) {
      return retake(confirming.get(0));
    }
    if (time.compareTo(passage.end()) < 0) {
      Verdict goOn = new Verdict.Continue(passage.end(), Agendas.of(course, passage, time));
      return decision(goOn, Optional.empty(), flips(Optional.empty()));
    }
    return atTheEnd();
  }

  // Time alone can make a rule hold, without an event.
  private Optional<Alarm> alarmNow() {
    return Watch.rules(course).stream()
        .filter(ProtocolRule::isStop)
        .filter(rule -> Watch.fires(rule, course, latest, time))
        .findFirst()
        .map(rule -> Watch.alarm(rule, latest, time));
  }

  private Optional<ProtocolRule> finishNow() {
    return Watch.rules(course).stream()
        .filter(ProtocolRule::isFinish)
        .filter(rule -> Watch.fires(rule, course, latest, time))
        .findFirst();
  }

  private Decision retake(ProtocolRule rule) {
    List<Gap> gaps = new ArrayList<>();
    rule.rule()
        .condition()
        .ifPresent(
            condition ->
                condition.demands().stream()
                    .map(demand -> demand.subject())
                    .filter(course.protocol.instruments().signals()::containsKey)
                    .distinct()
                    .sorted()
                    .forEach(signal -> gaps.add(Gap.now(signal, Gap.Cause.UNCONFIRMED))));
    Confirming confirming = java.util.Objects.requireNonNull(course.confirming.get(rule.id()));
    Verdict measure = new Verdict.Measure(gaps, Optional.of(confirming.until()));
    return decision(measure, Optional.of(Reasons.of(rule, latest)), Firmness.FIRM);
  }

  private Decision atTheEnd() {
    Duration limit = passage.waitsUntil(course.protocol.unmeasured());
    List<Gap> gaps = List.of();
    // The newest due time that can be decided; while a decision waits, due times go on.
    for (Duration due : dueTimes(limit)) {
      EndOfStage end = new EndOfStage(course, passage, due, time);
      if (end.verdict().isPresent()) {
        return decision(end);
      }
      gaps = gaps.isEmpty() ? end.gaps() : gaps;
    }
    if (time.compareTo(limit) < 0) {
      return decision(
          new Verdict.Measure(gaps, Optional.of(limit)), Optional.empty(), flips(Optional.empty()));
    }
    return undecided(gaps);
  }

  /** The due time whose readings decide at this moment; empty when none can. */
  Optional<Duration> decidedDue() {
    Duration limit = passage.waitsUntil(course.protocol.unmeasured());
    return dueTimes(limit).stream()
        .filter(due -> new EndOfStage(course, passage, due, time).verdict().isPresent())
        .findFirst();
  }

  private List<Duration> dueTimes(Duration limit) {
    Duration last = time.compareTo(limit) < 0 ? time : limit;
    Set<Duration> due = new LinkedHashSet<>();
    due.add(passage.endInStage());
    for (MeasureLine line : course.protocol.schedule().lines()) {
      if (line.timing() instanceof MeasureLine.Timing.Each) {
        line.due(passage.stage().lasts(), passage.since(last)).stream()
            .filter(at -> at.compareTo(passage.endInStage()) > 0)
            .forEach(due::add);
      }
    }
    List<Duration> newestFirst = new ArrayList<>(due);
    newestFirst.sort(java.util.Comparator.reverseOrder());
    return newestFirst;
  }

  private Decision undecided(List<Gap> gaps) {
    Unmeasured unmeasured = course.protocol.unmeasured();
    String missing = String.join(", ", gaps.stream().map(Gap::toString).toList());
    Because because =
        Reasons.plain("undecided", "no decision within the time allowed; missing: " + missing);
    Verdict verdict = unmeasured.thenStop() ? new Verdict.Stop(false, "") : new Verdict.Finish();
    return decision(verdict, Optional.of(because), Firmness.FIRM);
  }

  private Decision decision(EndOfStage end) {
    Verdict verdict = end.verdict().orElseThrow();
    // What is recommended anyway need not be offered.
    List<Decision.Offer> offers =
        end.offers().stream().filter(offer -> !offer.verdict().equals(verdict)).toList();
    return new Decision(
        time,
        course.phase,
        Optional.of(passage.stage().id()),
        verdict,
        end.because(),
        merged(end.firmness(), flips(Optional.empty())),
        offers,
        cautions(end.cautions()),
        end.unchecked(),
        course.events.size());
  }

  private Decision decision(Verdict verdict, Optional<Because> because, Firmness firmness) {
    return new Decision(
        time,
        course.phase,
        Optional.of(passage.stage().id()),
        verdict,
        because,
        firmness,
        List.of(),
        cautions(List.of()),
        List.of(),
        course.events.size());
  }

  private List<Because> cautions(List<Because> further) {
    List<Because> cautions = new ArrayList<>();
    for (ProtocolRule rule : Watch.rules(course)) {
      if (rule.action() instanceof Action.Caution && rule.rule().test(latest) == Truth.TRUE) {
        cautions.add(Reasons.of(rule, latest));
      }
    }
    cautions.addAll(further);
    return cautions;
  }

  // What ends the test at any time could do so a step of a reading sooner, or not have done so yet.
  private Firmness flips(Optional<ProtocolRule> fired) {
    Box box = Resolution.around(latest);
    Set<String> flips = new LinkedHashSet<>();
    for (ProtocolRule rule : Watch.rules(course)) {
      boolean ends = rule.isStop() || rule.isFinish();
      boolean sameAnswer = fired.isPresent() && !rule.isStop() && !rule.equals(fired.get());
      if (ends && !sameAnswer && !course.dismissed.contains(rule.id())) {
        rule.rule()
            .condition()
            .ifPresent(
                when -> {
                  boolean open =
                      fired.filter(rule::equals).isPresent()
                          ? !when.outcomes(box).alwaysHolds()
                          : when.outcomes(box).canHold();
                  if (open) {
                    flips.addAll(when.undecided(box));
                  }
                });
      }
    }
    return new Firmness(List.copyOf(flips));
  }

  private static Firmness merged(Firmness a, Firmness b) {
    Set<String> all = new LinkedHashSet<>(a.couldFlip());
    all.addAll(b.couldFlip());
    return new Firmness(List.copyOf(all));
  }
}
