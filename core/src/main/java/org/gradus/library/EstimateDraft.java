package org.gradus.library;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.protocol.EstimateLine.PublishedError;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Selection;

/** An estimate as it was written. */
record EstimateDraft(
    String id,
    Span where,
    Selection from,
    Optional<Expression> onlyWhen,
    Map<String, Placed<Expression>> locals,
    Expression vo2max,
    Optional<PublishedError> error,
    Citation source,
    List<String> cautions) {}
