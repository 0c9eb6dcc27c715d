package org.gradus.knowledge;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Problems;
import org.gradus.rule.Formula;
import org.gradus.rule.answer.Gap;
import org.gradus.rule.check.Layout;
import org.gradus.rule.check.Vocabulary;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.words.Message;

/** A formula of a knowledge file, worked out on values given by name. Immutable. */
// Members that show types of closed packages are for the engine and its tools.
@SuppressWarnings("exports")
public final class Reckoning {

  private final Formula formula;
  private final Layout layout;

  private Reckoning(Formula formula, Layout layout) {
    this.formula = formula;
    this.layout = layout;
  }

  /** Checks and plans a formula; notes what is wrong with it and gives nothing if anything is. */
  public static Optional<Reckoning> of(
      Expression text, List<Kind> kinds, Vocabulary vocabulary, Problems problems) {
    Layout.Builder layout = new Layout.Builder();
    return Formula.of(text, kinds, vocabulary, layout, problems)
        .map(formula -> new Reckoning(formula, layout.build()));
  }

  /** What it is a measure of. */
  public Kind kind() {
    return formula.kind();
  }

  /** Its value in the base unit of its kind; NaN when it is not known. */
  public double value(Given given) {
    return formula.value(given.frame(layout));
  }

  /** Why it is not known; empty when it is. */
  public List<Message> gaps(Given given) {
    return formula.gaps(given.frame(layout)).stream().map(Gap::message).toList();
  }

  /** Its text with the numbers filled in. */
  public String filled(Given given) {
    return formula.filled(given.frame(layout)).toString();
  }

  /** The text it was made from. */
  public String text() {
    return formula.text();
  }
}
