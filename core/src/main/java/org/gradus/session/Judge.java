package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.ReadingRefused;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Gap;
import org.gradus.rule.plan.Truth;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Quantity;

/** Reads the decision of a moment off a course. Pure: asking changes nothing. */
final class Judge {

  private final Course course;
  private final Duration time;

  private Judge(Course course, Duration time) {
    this.course = course;
    this.time = time;
  }

  static Decision decide(Course course, Duration time) {
    if (time.compareTo(course.now) < 0) {
      throw new ReadingRefused(
          Code.G503, "the question", Times.clock(time), Times.clock(course.now));
    }
    return new Judge(course, time).decide();
  }

  private Decision decide() {
    return switch (course.phase) {
      case BEFORE -> before();
      case STAGE -> new StageJudge(course, time).decide();
      case RECOVERY -> new RecoveryJudge(course, time).decide();
      case ENDED ->
          plain(
              course, time, new Verdict.Over(course.ending.orElse(Ending.DONE)), Optional.empty());
    };
  }

  static Decision plain(Course course, Duration time, Verdict verdict, Optional<Because> because) {
    return new Decision(
        time,
        course.phase,
        Optional.empty(),
        verdict,
        because,
        Firmness.FIRM,
        List.of(),
        List.of(),
        List.of(),
        course.events.size());
  }

  private Decision before() {
    Frame frame = Sight.latest(course, time);
    List<Because> reasons = new ArrayList<>();
    List<Because> cautions = new ArrayList<>();
    List<Gap> gaps = new ArrayList<>();
    ages(reasons, cautions);
    Optional<ProtocolRule> start = Optional.empty();
    boolean open = false;
    for (ProtocolRule rule : course.protocol.rules().before()) {
      Truth truth = rule.rule().test(frame);
      if (rule.action() instanceof Action.Defer && truth == Truth.TRUE) {
        reasons.add(Reasons.of(rule, frame));
      } else if (rule.action() instanceof Action.Caution && truth == Truth.TRUE) {
        cautions.add(Reasons.of(rule, frame));
      } else if (rule.action() instanceof Action.StartAt && start.isEmpty() && !open) {
        start = truth == Truth.TRUE ? Optional.of(rule) : Optional.empty();
        open = truth == Truth.UNKNOWN;
      }
      boolean needed =
          rule.action() instanceof Action.Defer
              || (rule.action() instanceof Action.StartAt && open);
      if (needed && truth == Truth.UNKNOWN) {
        gaps.addAll(Reasons.gaps(rule, frame));
      }
    }
    Verdict verdict = readiness(reasons, gaps, start);
    Optional<Because> because = reasons.stream().findFirst();
    return new Decision(
        time,
        course.phase,
        Optional.empty(),
        verdict,
        because,
        Firmness.FIRM,
        List.of(),
        cautions,
        List.of(),
        course.events.size());
  }

  private Verdict readiness(List<Because> reasons, List<Gap> gaps, Optional<ProtocolRule> start) {
    if (!reasons.isEmpty()) {
      return new Verdict.Defer(reasons);
    } else if (!gaps.isEmpty()) {
      return new Verdict.Measure(gaps.stream().distinct().toList(), Optional.empty());
    }
    Stage first =
        start
            .map(rule -> ((Action.StartAt) rule.action()).stage().text())
            .flatMap(course.protocol::stage)
            .orElse(course.protocol.stages().get(0));
    return new Verdict.Ready(first.id(), Loads.of(course, first, time));
  }

  private void ages(List<Because> reasons, List<Because> cautions) {
    Eligibility eligibility = course.protocol.eligibility();
    Optional<Quantity> age = course.person.value(Attribute.AGE);
    if (age.isPresent() && !eligibility.includes(age.get().base())) {
      Because outside =
          Reasons.plain(
              "ages",
              age.get()
                  + " is outside the ages of this protocol, "
                  + eligibility.youngest()
                  + " to "
                  + eligibility.oldest()
                  + " years");
      (eligibility.outside() == Eligibility.Outside.DEFER ? reasons : cautions).add(outside);
    }
  }
}
