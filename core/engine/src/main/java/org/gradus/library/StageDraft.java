package org.gradus.library;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Unit;

/** A stage as it was written. */
record StageDraft(
    String id,
    Span where,
    Duration lasts,
    boolean untilDone,
    List<LoadDraft> loads,
    Optional<String> posture,
    boolean warmUp,
    Optional<List<RuleDraft>> ownRules,
    Citation source) {

  /** One component of its load. */
  record LoadDraft(String name, Unit unit, Expression value, Optional<RampDraft> ramp) {

    /** What it is a measure of. */
    Kind kind() {
      return unit.kind();
    }

    /** Every value in it. */
    List<Expression> expressions() {
      List<Expression> all = new ArrayList<>(List.of(value));
      ramp.ifPresent(change -> all.addAll(List.of(change.step(), change.to())));
      return all;
    }
  }

  /** How a load changes. */
  record RampDraft(Expression step, Duration every, Expression to) {}

  /** Every value in its loads. */
  List<Expression> expressions() {
    return loads.stream().flatMap(load -> load.expressions().stream()).toList();
  }
}
