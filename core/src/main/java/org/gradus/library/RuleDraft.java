package org.gradus.library;

import java.time.Duration;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.ProtocolRule.Then;
import org.gradus.rule.syntax.Sentence;

/** A rule as it was written, before its names have a meaning. */
record RuleDraft(
    String id,
    Span where,
    Sentence sentence,
    String why,
    String instruction,
    Citation source,
    Optional<Duration> confirm,
    boolean stagesOnly,
    Then then) {}
