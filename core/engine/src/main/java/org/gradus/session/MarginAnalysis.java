package org.gradus.session;

import java.util.List;
import java.util.Optional;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.Resolution;
import org.gradus.rule.answer.Truth;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.plan.Frame;

/** Which answers rules could have, given the steps to which readings were read. */
final class MarginAnalysis {

  private static final Outcomes ALWAYS = new Outcomes(true, false, false);

  private final Frame frame;
  private Optional<Box> box = Optional.empty();

  private MarginAnalysis(Frame frame) {
    this.frame = frame;
  }

  /** What is left open about what is known at a moment. */
  static MarginAnalysis around(Frame frame) {
    return new MarginAnalysis(frame);
  }

  /**
   * Which answers a rule could have. Most rules ask for signs, which are exact; only the others
   * need the box.
   */
  Outcomes outcomes(ProtocolRule rule) {
    Optional<Condition> condition = rule.rule().condition();
    if (condition.isEmpty()) {
      return ALWAYS;
    } else if (condition.get().isExact(frame)) {
      Truth truth = condition.get().test(frame);
      return new Outcomes(truth == Truth.TRUE, truth == Truth.FALSE, truth == Truth.UNKNOWN);
    }
    return condition.get().outcomes(box());
  }

  private Box box() {
    Box around = box.orElseGet(() -> Resolution.around(frame));
    box = Optional.of(around);
    return around;
  }

  /** The comparisons on which the answer of a rule hangs; none if it has one answer only. */
  List<String> undecided(ProtocolRule rule) {
    return undecided(rule, outcomes(rule));
  }

  /**
   * The comparisons on which the answer of a rule hangs; none if it has one answer only.
   *
   * @param could what it could come to
   */
  List<String> undecided(ProtocolRule rule, Outcomes could) {
    if (could.isCertain()) {
      return List.of();
    }
    List<String> found =
        rule.rule().condition().map(when -> when.undecided(box())).orElse(List.of());
    // An answer that depends on something else than a comparison is not firm either.
    return found.isEmpty() ? List.of(rule.rule().text()) : found;
  }
}
