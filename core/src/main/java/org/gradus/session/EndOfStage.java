package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.MeasureLine;
import org.gradus.protocol.MeasureLine.IfMissing;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Truth;
import org.gradus.rule.syntax.Action;

/**
 * The rules of a stage's end, looked at for one due time. The first rule that holds gives the
 * verdict; one above it that is unknown blocks, unless it would give the same. To go on or to stay,
 * what ends the test must be known as far as the protocol waits for it.
 */
final class EndOfStage {

  private final Course course;
  private final Passage passage;
  private final Duration due;
  private final Duration time;
  private final Frame frame;

  private final List<Gap> gaps = new ArrayList<>();
  private final List<Decision.Offer> offers = new ArrayList<>();
  private final List<Because> cautions = new ArrayList<>();
  private final List<Decision.Unchecked> unchecked = new ArrayList<>();
  private Optional<Verdict> verdict = Optional.empty();
  private Optional<Because> because = Optional.empty();

  EndOfStage(Course course, Passage passage, Duration due, Duration time) {
    this.course = course;
    this.passage = passage;
    this.due = due;
    this.time = time;
    this.frame = Sight.atDue(course, passage, due);
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
    return gaps.stream().distinct().toList();
  }

  List<Decision.Offer> offers() {
    return offers;
  }

  List<Because> cautions() {
    return cautions;
  }

  List<Decision.Unchecked> unchecked() {
    return unchecked;
  }

  private void look() {
    Optional<MeasureLine> endsIt = missingThatEnds();
    if (endsIt.isPresent()) {
      verdict = Optional.of(new Verdict.Finish());
      because =
          Optional.of(
              Reasons.plain("missing", "not read: " + String.join(", ", endsIt.get().signals())));
      return;
    }
    Set<Verdict> open = new LinkedHashSet<>();
    for (ProtocolRule rule : course.protocol.rulesAtEndOf(passage.stage())) {
      Truth truth = rule.rule().test(frame);
      if (rule.action() instanceof Action.Offer || rule.action() instanceof Action.Caution) {
        aside(rule, truth);
      } else if (verdict.isEmpty() && truth != Truth.FALSE && isLeft(rule.action())) {
        Verdict meant = meant(rule.action(), rule);
        open.add(meant);
        if (truth == Truth.UNKNOWN) {
          gaps.addAll(Reasons.gaps(rule, frame));
        } else if (gaps.isEmpty() || open.size() == 1) {
          verdict = Optional.of(meant);
          because = Optional.of(Reasons.of(rule, frame));
        } else {
          break;
        }
      }
    }
    // To finish never waits; to go on or to stay does.
    if (verdict.isPresent() && !(verdict.get() instanceof Verdict.Finish)) {
      endingRules();
    }
    if (verdict.isPresent()) {
      gaps.clear();
    }
  }

  private Optional<MeasureLine> missingThatEnds() {
    return course.protocol.schedule().lines().stream()
        .filter(line -> line.ifMissing() == IfMissing.FINISH)
        .filter(
            line ->
                line.lastDue(passage.stage().lasts(), due)
                    .filter(
                        at ->
                            line.signals().stream()
                                .anyMatch(signal -> passage.slot(signal, at).isEmpty()))
                    .isPresent())
        .findFirst();
  }

  private void aside(ProtocolRule rule, Truth truth) {
    if (truth != Truth.TRUE) {
      return;
    }
    if (rule.action() instanceof Action.Offer offer) {
      if (isLeft(offer.offered())) {
        offers.add(new Decision.Offer(meant(offer.offered(), rule), Reasons.of(rule, frame)));
      }
    } else {
      cautions.add(Reasons.of(rule, frame));
    }
  }

  // A hold that has been used up is as if it were not there.
  private boolean isLeft(Action action) {
    return !(action instanceof Action.Hold hold) || passage.holds() < hold.times();
  }

  private Verdict meant(Action action, ProtocolRule rule) {
    if (action instanceof Action.Hold) {
      return new Verdict.Hold(passage.start().plus(due).plus(rule.rule().pause().orElseThrow()));
    } else if (action instanceof Action.Advance advance) {
      return nextStage(advance)
          .<Verdict>map(stage -> new Verdict.Advance(stage.id(), Loads.of(course, stage, time)))
          .orElse(new Verdict.Finish());
    }
    return new Verdict.Finish();
  }

  // Beyond the last stage there is nothing to advance to: that is finishing.
  private Optional<Stage> nextStage(Action.Advance advance) {
    if (advance.to().isPresent()) {
      return course.protocol.stage(advance.to().get().text());
    }
    int next = passage.stage().place() + 1;
    List<Stage> stages = course.protocol.stages();
    return next < stages.size() ? Optional.of(stages.get(next)) : Optional.empty();
  }

  private void endingRules() {
    List<Gap> waitedFor = new ArrayList<>();
    for (ProtocolRule rule : Watch.rules(course)) {
      boolean ends = rule.isStop() || rule.isFinish();
      if (ends && rule.rule().test(frame) == Truth.UNKNOWN) {
        List<Gap> lacking = Reasons.gaps(rule, frame);
        List<Gap> waits = lacking.stream().filter(this::isWaitedFor).toList();
        waitedFor.addAll(waits);
        if (waits.isEmpty()) {
          unchecked.add(new Decision.Unchecked(rule.id(), lacking));
        }
      }
    }
    if (!waitedFor.isEmpty()) {
      verdict = Optional.empty();
      because = Optional.empty();
      gaps.addAll(waitedFor);
    }
  }

  private boolean isWaitedFor(Gap gap) {
    return !(gap.settle() instanceof Gap.Settle.Never)
        && course
            .protocol
            .schedule()
            .lineOf(gap.subject())
            .filter(line -> line.ifMissing() == IfMissing.WAIT)
            .isPresent();
  }

  /** Whether the steps to which readings were read could lead to another verdict. */
  Firmness firmness() {
    Box box = Resolution.around(frame);
    Set<Verdict> possible = new LinkedHashSet<>();
    Set<String> flips = new LinkedHashSet<>();
    for (ProtocolRule rule : course.protocol.rulesAtEndOf(passage.stage())) {
      boolean judges =
          !(rule.action() instanceof Action.Offer) && !(rule.action() instanceof Action.Caution);
      if (judges && isLeft(rule.action())) {
        Outcomes outcomes =
            rule.rule()
                .condition()
                .map(when -> when.outcomes(box))
                .orElse(new Outcomes(true, false, false));
        if (outcomes.canHold()) {
          possible.add(meant(rule.action(), rule));
          rule.rule().condition().ifPresent(when -> flips.addAll(when.undecided(box)));
        }
        if (outcomes.alwaysHolds()) {
          break;
        }
      }
    }
    return possible.size() <= 1 ? Firmness.FIRM : new Firmness(List.copyOf(flips));
  }
}
