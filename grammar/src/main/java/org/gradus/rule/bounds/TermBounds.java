package org.gradus.rule.bounds;

import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Term;

/** Evaluates definitions: goes through their alternatives, narrowing the box on the way down. */
final class TermBounds {

  private TermBounds() {}

  static Interval number(Term term, Box box) {
    Interval joined = Interval.NOTHING;
    boolean first = true;
    Box left = box;
    for (Term.Alternative alternative : term.alternatives()) {
      Outcomes applies = applies(alternative, left);
      if (applies.canHold()) {
        Box inside = assumed(alternative, left);
        Interval value =
            alternative
                .value()
                .map(checked -> new Bounds(checked, inside).number(checked.root()))
                .orElse(Interval.NOTHING);
        joined = first ? value : joined.join(value);
        first = false;
      }
      if (applies.canBeUnknown()) {
        joined = first ? Interval.NOTHING : joined.orUnknown(true);
        first = false;
      }
      if (applies.alwaysHolds()) {
        return joined;
      }
      left = excluded(alternative, left);
    }
    // past the last alternative: none applied
    return first ? Interval.NOTHING : joined.orUnknown(true);
  }

  static Outcomes truth(Term term, Box box) {
    Outcomes joined = Outcomes.NOTHING;
    Box left = box;
    for (Term.Alternative alternative : term.alternatives()) {
      Outcomes applies = applies(alternative, left);
      if (applies.canHold()) {
        Box inside = assumed(alternative, left);
        Outcomes value =
            alternative
                .value()
                .map(checked -> new Bounds(checked, inside).truth(checked.root()))
                .orElse(new Outcomes(false, false, true));
        joined = joined.join(value);
      }
      if (applies.canBeUnknown()) {
        joined = joined.join(new Outcomes(false, false, true));
      }
      if (applies.alwaysHolds()) {
        return joined;
      }
      left = excluded(alternative, left);
    }
    return joined.join(new Outcomes(false, false, true));
  }

  private static Outcomes applies(Term.Alternative alternative, Box box) {
    Outcomes all = Outcomes.HOLDS;
    for (Checked when : alternative.when()) {
      all = all.and(Bounds.outcomes(when, box));
    }
    return all;
  }

  private static Box assumed(Term.Alternative alternative, Box box) {
    Box narrowed = box;
    for (Checked when : alternative.when()) {
      narrowed = Assumption.holds(when, when.root(), narrowed);
    }
    return narrowed;
  }

  // With one condition its failing is known; with several only that not all hold.
  private static Box excluded(Term.Alternative alternative, Box box) {
    if (alternative.when().size() != 1) {
      return box;
    }
    Checked when = alternative.when().get(0);
    return Assumption.fails(when, when.root(), box);
  }
}
