package org.gradus.session;

import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Condition;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.plan.Frame;
import org.gradus.rule.plan.Truth;

/** What the steps to which readings were read leave open about the answers of rules. */
final class Leeway {

  private static final Outcomes ALWAYS = new Outcomes(true, false, false);

  private final Frame frame;
  private final IdentityHashMap<ProtocolRule, Outcomes> known = new IdentityHashMap<>();
  private Optional<Box> box = Optional.empty();

  private Leeway(Frame frame) {
    this.frame = frame;
  }

  static Leeway around(Frame frame) {
    return new Leeway(frame);
  }

  /** What a rule could come to. */
  Outcomes outcomes(ProtocolRule rule) {
    return known.computeIfAbsent(rule, this::find);
  }

  // Most rules ask for signs, which are exact; only for the others the box has to be looked at.
  private Outcomes find(ProtocolRule rule) {
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

  /** Whether a rule has one answer only. */
  boolean isCertain(ProtocolRule rule) {
    Outcomes could = outcomes(rule);
    int answers = (could.canHold() ? 1 : 0) + (could.canFail() ? 1 : 0);
    return answers + (could.canBeUnknown() ? 1 : 0) == 1;
  }

  /** The comparisons on which the answer of a rule hangs; none if it has one answer only. */
  List<String> undecided(ProtocolRule rule) {
    if (isCertain(rule)) {
      return List.of();
    }
    List<String> found =
        rule.rule().condition().map(when -> when.undecided(box())).orElse(List.of());
    // What hangs on something else than a comparison must not pass for firm.
    return found.isEmpty() ? List.of(rule.rule().text()) : found;
  }
}
