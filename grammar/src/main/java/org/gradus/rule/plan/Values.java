package org.gradus.rule.plan;

import java.math.MathContext;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;

/** The values that parts of a text have on a frame, as a person reads them. */
final class Values {

  private final Frame frame;

  Values(Frame frame) {
    this.frame = frame;
  }

  /** The value of a part: {@code 128 bpm}, {@code yes}, {@code unknown}. */
  String of(Checked checked, Expression part, MathContext digits) {
    if (!hasMeaning(part)) {
      return planned(checked, part, digits);
    }
    Meaning meaning = checked.meaningOf(part);
    if (meaning instanceof Meaning.Fixed fixed) {
      return fixed.value().toString();
    } else if (meaning instanceof Meaning.FixedWord word) {
      return word.word();
    } else if (meaning instanceof Meaning.Use use) {
      return of(use.term(), digits);
    } else if (meaning instanceof Meaning.Slot slot
        && slot.demand().type() instanceof Type.Choice) {
      return Shown.value(slot.demand().type(), frame.value(slot.index()), digits);
    }
    return planned(checked, part, digits);
  }

  private static boolean hasMeaning(Expression part) {
    return part instanceof Expression.Reference || part instanceof Expression.Call;
  }

  private String planned(Checked checked, Expression part, MathContext digits) {
    Node node = Planner.plan(checked, part);
    Type type = checked.typeOf(part).orElseThrow();
    return node instanceof NumberNode number
        ? Shown.value(type, number.value(frame), digits)
        : Shown.value(type, Shown.number(((TruthNode) node).truth(frame)), digits);
  }

  /** The value of a definition. */
  String of(Term term, MathContext digits) {
    Alternatives alternatives = Planner.alternatives(term);
    double found =
        term.type().equals(Type.CONDITION)
            ? Shown.number(alternatives.truth(frame))
            : alternatives.number(frame);
    return Shown.value(term.type(), found, digits);
  }
}
