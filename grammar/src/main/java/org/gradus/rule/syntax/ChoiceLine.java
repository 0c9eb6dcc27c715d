package org.gradus.rule.syntax;

import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.rule.syntax.Expression.Name;

/**
 * One line of a list of which the first that applies is taken: {@code running when gait is
 * running}.
 *
 * @param span the whole text
 * @param name what is taken
 * @param when the condition; without one the line always applies
 */
public record ChoiceLine(Span span, Name name, Optional<Expression> when) {}
