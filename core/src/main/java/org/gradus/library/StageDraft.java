package org.gradus.library;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;

/** A stage as it was written. */
record StageDraft(
    String id,
    Span where,
    Duration lasts,
    List<LoadDraft> loads,
    boolean warmUp,
    Optional<List<RuleDraft>> ownRules) {

  /** One component of its load. */
  record LoadDraft(String name, Kind kind, Expression value) {}
}
