package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;
import org.gradus.session.Decision;
import org.gradus.session.Times;
import org.gradus.session.Verdict;

/** A decision with its rule, figures and source, in lines. */
final class Explanation {

  private Explanation() {}

  static List<String> lines(Decision decision) {
    List<String> lines = new ArrayList<>();
    lines.add(decision.toString());
    decision
        .because()
        .ifPresent(
            rule -> {
              lines.add("  rule: " + rule.text());
              rule.filled().ifPresent(filled -> lines.add("  with its values: " + filled));
              lines.add("  source: " + rule.source());
            });
    if (decision.verdict() instanceof Verdict.Continue goOn) {
      lines.add(
          "  no rule asks for anything else; the next decision is due at "
              + Times.clock(goOn.until()));
    } else if (decision.verdict() instanceof Verdict.Measure measure) {
      measure.gaps().forEach(gap -> lines.add("  missing: " + gap));
    }
    if (!decision.firmness().isFirm()) {
      lines.add("  marginal, could flip: " + String.join("; ", decision.firmness().couldFlip()));
    }
    decision.offers().forEach(offer -> lines.add("  or: " + offer.verdict()));
    decision.cautions().forEach(caution -> lines.add("  caution: " + caution.shortly()));
    decision
        .unchecked()
        .forEach(rule -> lines.add("  not checked: " + rule.rule() + " " + rule.gaps()));
    return lines;
  }
}
