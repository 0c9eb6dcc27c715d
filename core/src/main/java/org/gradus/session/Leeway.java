package org.gradus.session;

import java.util.List;
import org.gradus.protocol.ProtocolRule;
import org.gradus.rule.Resolution;
import org.gradus.rule.bounds.Box;
import org.gradus.rule.bounds.Outcomes;
import org.gradus.rule.plan.Frame;

/** What the steps to which readings were read leave open about the answers of rules. */
final class Leeway {

  private static final Outcomes ALWAYS = new Outcomes(true, false, false);

  private final Box box;

  private Leeway(Box box) {
    this.box = box;
  }

  static Leeway around(Frame frame) {
    return new Leeway(Resolution.around(frame));
  }

  /** What a rule could come to. */
  Outcomes outcomes(ProtocolRule rule) {
    return rule.rule().condition().map(when -> when.outcomes(box)).orElse(ALWAYS);
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
    List<String> found = rule.rule().condition().map(when -> when.undecided(box)).orElse(List.of());
    // What hangs on something else than a comparison must not pass for firm.
    return found.isEmpty() ? List.of(rule.rule().text()) : found;
  }
}
