package org.gradus.capacity;

import java.util.List;
import java.util.Optional;
import org.gradus.internal.KeyMoments;
import org.gradus.knowledge.PlausibleRange;
import org.gradus.knowledge.ResultMessage;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.EstimateLine;
import org.gradus.protocol.Protocol;
import org.gradus.rule.Condition;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.plan.Frame;
import org.gradus.session.Outcome;
import org.gradus.session.StageResult;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;
import org.gradus.words.Message;

/** Tries to work out the estimates of one test, in numbers alone. */
final class Attempt {

  private final Outcome outcome;
  private final Protocol protocol;
  private final StageFrames frames;
  private final Selector selector;

  Attempt(Outcome outcome) {
    this.outcome = outcome;
    this.protocol = outcome.protocol();
    this.frames = new StageFrames(outcome);
    this.selector = new Selector(outcome, frames);
  }

  /**
   * What an estimate comes to.
   *
   * @param answer the answer, if there is one
   * @param reasons why there is none
   */
  record Tried(Optional<Answer> answer, List<Message> reasons) {
    private static Tried lacking(List<Message> reasons) {
      return new Tried(Optional.empty(), reasons);
    }
  }

  /**
   * An answer.
   *
   * @param value the capacity in mL/kg/min, or the result in its unit, unrounded
   * @param around where the true one lies, or why that is not said
   * @param situation what it was worked out from
   * @param stages the stages it was made from
   */
  record Answer(
      Quantity value, Propagation.Around around, Situation situation, List<StageResult> stages) {}

  /** What was known at the end of each stage. */
  StageFrames frames() {
    return frames;
  }

  Tried at(EstimateLine line) {
    Selector.Selected selected = selector.select(line);
    if (selected.lacking().isPresent()) {
      return Tried.lacking(List.of(selected.lacking().get()));
    }
    List<StageResult> stages = selected.stages();
    Situation situation =
        stages.isEmpty()
            ? Situation.of(protocol, line, atMoment(line))
            : Situation.of(protocol, line, stages.stream().map(frames::of).toList());
    Frame frame = situation.own();
    Optional<List<Message>> barred = line.onlyWhen().flatMap(condition -> barred(condition, frame));
    if (barred.isPresent()) {
      return Tried.lacking(barred.get());
    }
    if (Double.isNaN(situation.value())) {
      return Tried.lacking(Missing.of(protocol, frame, line.formula().gaps(frame)));
    }
    if (line.shown().isEmpty()
        && situation.value() <= 0
        && protocol.assessment().plausible().isEmpty()) {
      Quantity found = Quantity.ofBase(situation.value(), line.formula().kind().base());
      return Tried.lacking(List.of(Message.of(ResultMessage.IMPLAUSIBLE, found.rounded(2))));
    }
    return perKilogram(line)
        .map(factor -> new Tried(Optional.of(answer(line, situation, factor, stages)), List.of()))
        .orElseGet(() -> Tried.lacking(List.of(Message.of(ResultMessage.NO_MASS))));
  }

  /** The values that what a line gives can have, where a file says so. */
  Optional<PlausibleRange> plausible(EstimateLine line) {
    return line.shown()
        .map(EstimateLine.Shown::plausible)
        .orElse(protocol.assessment().plausible());
  }

  /** The range that an answer lies outside of, if it does. */
  Optional<PlausibleRange> outside(EstimateLine line, Answer answer) {
    return plausible(line).filter(range -> !range.holds(answer.value().base()));
  }

  private Frame atMoment(EstimateLine line) {
    KeyMoments moments = KeyMoments.of(outcome);
    return Selector.isOfRecovery(line) ? moments.inRecovery() : moments.atFinish();
  }

  private Optional<List<Message>> barred(Condition condition, Frame frame) {
    Truth truth = condition.test(frame);
    if (truth == Truth.TRUE) {
      return Optional.empty();
    }
    return Optional.of(
        truth == Truth.UNKNOWN
            ? Missing.of(protocol, frame, condition.gaps(frame))
            : List.of(Message.of(ResultMessage.ONLY_WHEN, condition.filled(frame).toString())));
  }

  // What turns the answer of a formula into an uptake per kilogram.
  private Optional<Double> perKilogram(EstimateLine line) {
    return line.shown().isPresent() || line.formula().kind() == Kind.UPTAKE
        ? Optional.of(1.0)
        : outcome.person().value(Attribute.MASS).map(mass -> 1 / mass.base());
  }

  private Answer answer(
      EstimateLine line, Situation situation, double perKilogram, List<StageResult> stages) {
    double value = situation.value() * perKilogram;
    Unit unit = line.shown().map(EstimateLine.Shown::unit).orElse(Unit.ML_PER_KG_PER_MINUTE);
    List<Doubt> doubts = Doubts.of(protocol, line, situation);
    Propagation.Around around =
        new Propagation(situation, perKilogram, unit).interval(value, doubts, line);
    return new Answer(Quantity.ofBase(value, unit), around, situation, stages);
  }
}
