package org.gradus.session;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Eligibility;
import org.gradus.protocol.Fact;
import org.gradus.protocol.ProtocolRule;
import org.gradus.protocol.Stage;
import org.gradus.protocol.Wiring;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.syntax.Action;
import org.gradus.unit.Quantity;
import org.gradus.words.FileText;
import org.gradus.words.Message;

/** Decides before the first stage: whether the person is ready, and where to begin. */
final class BeforeJudge {

  private final StateAt now;
  private final TestState state;
  private final Duration time;
  private final Frame frame;
  private final MarginAnalysis margins;

  private final List<Because> reasons = new ArrayList<>();
  private final List<Because> cautions = new ArrayList<>();
  private final List<Gap> gaps = new ArrayList<>();
  private final Set<String> flips = new LinkedHashSet<>();
  private boolean surelyDeferred;
  private Optional<ProtocolRule> start = Optional.empty();
  private boolean startOpen;

  BeforeJudge(StateAt now) {
    this.now = now;
    this.state = now.state();
    this.time = now.time();
    this.frame = now.latest();
    this.margins = MarginAnalysis.around(frame);
  }

  Decision decide() {
    ages();
    state.protocol.rules().before().forEach(this::look);
    answers();
    // A test that would be stopped as soon as it begins does not begin.
    state.protocol.rules().anyTime().stream()
        .filter(ProtocolRule::isStop)
        .filter(rule -> rule.rule().test(frame) == Truth.TRUE)
        .forEach(this::defer);
    Verdict verdict = verdict();
    return Decision.of(
        now,
        Optional.empty(),
        verdict,
        verdict instanceof Verdict.Ready
            ? start.map(rule -> Reasons.of(rule, frame))
            : reasons.stream().findFirst(),
        surelyDeferred ? Firmness.FIRM : Firmness.of(flips),
        List.of(),
        cautions,
        List.of(),
        Agendas.before(now, neededAnswers()));
  }

  private void look(ProtocolRule rule) {
    Truth truth = rule.rule().test(frame);
    switch (rule.action().kind()) {
      case CAUTION -> {
        if (truth == Truth.TRUE) {
          cautions.add(Reasons.of(rule, frame));
        }
      }
      case DEFER -> {
        flips.addAll(margins.undecided(rule));
        if (truth == Truth.TRUE) {
          defer(rule);
        } else if (truth == Truth.UNKNOWN) {
          gaps.addAll(Reasons.gaps(rule, frame));
        }
      }
      case START_AT -> {
        flips.addAll(margins.undecided(rule));
        if (start.isEmpty() && !startOpen) {
          start = truth == Truth.TRUE ? Optional.of(rule) : Optional.empty();
          startOpen = truth == Truth.UNKNOWN;
          gaps.addAll(startOpen ? Reasons.gaps(rule, frame) : List.of());
        }
      }
      case STOP, FINISH, HOLD, CHANGE, ADVANCE, OFFER, END ->
          throw new IllegalStateException(
              rule.id() + " cannot decide before the test: " + rule.action().word());
    }
  }

  private void defer(ProtocolRule rule) {
    reasons.add(Reasons.of(rule, frame));
    surelyDeferred |= margins.outcomes(rule).alwaysHolds();
  }

  // Questions are asked before the test only.
  private void answers() {
    Wiring wiring = state.protocol.wiring();
    List<Gap> open = new ArrayList<>();
    for (int slot = 0; slot < wiring.layout().size(); slot++) {
      boolean answer = wiring.fact(slot).filter(Fact.Answer.class::isInstance).isPresent();
      if (answer && !frame.isKnown(slot)) {
        open.add(frame.gap(slot));
      }
    }
    if (!open.isEmpty()) {
      Set<String> needed = state.protocol.neededAnswers();
      open.stream().filter(gap -> needed.contains(gap.subject())).forEach(gaps::add);
    }
  }

  private void ages() {
    Eligibility eligibility = state.protocol.eligibility();
    Optional<Quantity> age = state.person.value(Attribute.AGE);
    if (age.isPresent() && !eligibility.includes(age.get().base())) {
      Quantity years = age.get();
      Because outside =
          Reasons.plain(
              "ages",
              eligibility.why().isEmpty()
                  ? Message.of(
                      SessionMessage.OUTSIDE_AGES,
                      years,
                      eligibility.youngest(),
                      eligibility.oldest())
                  : Message.of(
                      SessionMessage.OUTSIDE_AGES_WHY,
                      years,
                      eligibility.youngest(),
                      eligibility.oldest(),
                      new FileText(eligibility.why())));
      boolean defers = eligibility.outside() == Eligibility.Outside.DEFER;
      (defers ? reasons : cautions).add(outside);
      surelyDeferred |= defers;
    }
  }

  private Verdict verdict() {
    if (!reasons.isEmpty()) {
      return new Verdict.Defer(reasons);
    } else if (!gaps.isEmpty()) {
      return new Verdict.Measure(gaps.stream().distinct().toList(), Optional.empty());
    }
    Stage first =
        start
            .map(rule -> ((Action.StartAt) rule.action()).stage().text())
            .flatMap(state.protocol::stage)
            .orElse(state.protocol.stages().get(0));
    return new Verdict.Ready(first.id(), Loads.of(state, first, time));
  }

  private Set<String> neededAnswers() {
    Set<String> needed = new LinkedHashSet<>();
    for (Gap gap : gaps) {
      if (gap.cause() == Gap.Cause.NOT_ANSWERED) {
        needed.add(gap.subject());
      }
    }
    return needed;
  }
}
