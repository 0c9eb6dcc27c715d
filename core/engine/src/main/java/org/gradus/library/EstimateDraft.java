package org.gradus.library;

import java.util.ArrayList;
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
import org.gradus.unit.Unit;

/** An estimate as it was written. */
record EstimateDraft(
    String id,
    Span where,
    Selection from,
    Optional<Expression> onlyWhen,
    Map<String, Placed<Expression>> locals,
    Set<String> faultyLocals,
    Expression formula,
    Optional<Expression> leastSpan,
    Optional<Scalar> model,
    Optional<PublishedError> error,
    Citation source,
    String assumes,
    boolean secondLook,
    List<String> cautions,
    Optional<ShownDraft> shown) {

  /** How a result that is no aerobic capacity is shown, as it was written. */
  record ShownDraft(String title, Unit unit, Optional<ReferenceDraft> reference) {}

  /** What is expected of such a person, as it was written. */
  record ReferenceDraft(
      Expression value, Optional<Expression> lower, Optional<Expression> upper, Citation source) {}

  /** Every condition and value in it. */
  List<Expression> expressions() {
    List<Expression> all = new ArrayList<>(List.of(formula));
    onlyWhen.ifPresent(all::add);
    term().ifPresent(all::add);
    leastSpan.ifPresent(all::add);
    locals.values().forEach(local -> all.add(local.value()));
    shown
        .flatMap(ShownDraft::reference)
        .ifPresent(
            expected -> {
              all.add(expected.value());
              expected.lower().ifPresent(all::add);
              expected.upper().ifPresent(all::add);
            });
    return all;
  }

  /**
   * What must hold at the end of a stage for it to be selected. "completed" is what every selected
   * stage is; any other word is a term.
   */
  Optional<Expression> term() {
    Optional<Expression.Name> name =
        from.match(
            end -> end.term(),
            all -> all.term(),
            one -> Optional.empty(),
            moment -> Optional.empty());
    return name.filter(word -> !word.text().equals("completed"))
        .map(word -> new Expression.Reference(word.span(), word.text()));
  }
}
