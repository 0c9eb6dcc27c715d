package org.gradus.library;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gradus.diagnostic.Span;
import org.gradus.knowledge.Citation;
import org.gradus.library.YamlNode.Scalar;
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
    Set<String> faultyLocals,
    Expression vo2max,
    Optional<Expression> leastSpan,
    Optional<Scalar> model,
    Optional<PublishedError> error,
    Citation source,
    String assumes,
    List<String> cautions) {

  /**
   * What must hold at the end of a stage for it to be selected. "completed" is what every selected
   * stage is; any other word is a term.
   */
  Optional<Expression> term() {
    Optional<Expression.Name> name =
        from instanceof Selection.FromEnd end
            ? end.term()
            : from instanceof Selection.All all ? all.term() : Optional.empty();
    return name.filter(word -> !word.text().equals("completed"))
        .map(word -> new Expression.Reference(word.span(), word.text()));
  }
}
