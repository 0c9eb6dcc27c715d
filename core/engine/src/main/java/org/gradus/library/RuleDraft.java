package org.gradus.library;

import java.time.Duration;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.ProtocolRule.Then;
import org.gradus.protocol.Suspicion;
import org.gradus.rule.syntax.Sentence;

/**
 * A rule as it was written, before its names have a meaning.
 *
 * @param sentence empty when it does not parse, which has been noted: the rule keeps its place in
 *     the list, since nothing can be said of a list in which one is missing
 */
record RuleDraft(
    String id,
    Span where,
    Optional<Sentence> sentence,
    String why,
    String instruction,
    Citation source,
    Optional<Duration> confirm,
    boolean stagesOnly,
    Then then,
    boolean alarming,
    Optional<Suspicion> suspicion) {}
