package org.gradus.rule.syntax;

import java.util.Optional;
import org.gradus.diagnostic.Span;

/**
 * A whole rule: what to do and when.
 *
 * @param span the whole text
 * @param actionSpan the words of the action
 * @param action what to do
 * @param when the condition; without one the rule always holds
 */
public record Sentence(Span span, Span actionSpan, Action action, Optional<Expression> when) {}
