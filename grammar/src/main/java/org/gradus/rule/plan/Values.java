package org.gradus.rule.plan;

import java.math.MathContext;
import java.util.Optional;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Demand;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** The values that parts of a text have on a frame, as a person reads them. */
final class Values {

  private final Frame frame;

  Values(Frame frame) {
    this.frame = frame;
  }

  /** The value of a part: {@code 128 bpm}, {@code yes}, {@code unknown}. */
  String of(Checked checked, Expression part, MathContext digits) {
    Optional<Quantity> fixed = checked.fixed(part);
    if (fixed.isPresent()) {
      return fixed.get().toString(); // in the unit of the setting
    } else if (checked.meaning(part).orElse(null) instanceof PartMeaning.FixedWord word) {
      return word.word();
    }
    double value = NodeBuilder.plan(checked, part).slotValue(frame);
    Type type = checked.typeOf(part).orElseThrow();
    // What was read is shown in the unit in which it is read.
    Optional<Demand> demand = checked.meaning(part).flatMap(PartMeaning::shown);
    return demand.isPresent()
        ? Shown.value(type, value, digits, kind -> frame.layout().unit(demand.get(), kind))
        : Shown.value(type, value, digits);
  }

  /** The value of a definition. */
  String of(Term term, MathContext digits) {
    return Shown.value(term.type(), NodeBuilder.alternatives(term).slotValue(frame), digits);
  }
}
