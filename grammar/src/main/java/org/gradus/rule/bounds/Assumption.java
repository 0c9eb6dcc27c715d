package org.gradus.rule.bounds;

import java.util.List;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;
import org.gradus.unit.Quantity;

/**
 * Narrows a box to the part in which a condition holds, or is known to fail. What a condition says
 * in a way that is not understood here narrows nothing, which is always safe.
 */
public final class Assumption {

  private final Survey survey;
  private final Checked checked;
  private final boolean answer;

  private Assumption(Survey survey, boolean answer) {
    this.survey = survey;
    this.checked = survey.checked();
    this.answer = answer;
  }

  /** The part of a box in which a condition holds. */
  public static Box holds(Checked condition, Box box) {
    return narrow(Survey.of(condition, box), condition.root(), true);
  }

  /** The part of a box in which a condition is known to fail. */
  public static Box fails(Checked condition, Box box) {
    return narrow(Survey.of(condition, box), condition.root(), false);
  }

  static Box narrow(Survey survey, Expression condition, boolean answer) {
    return survey.isSpent() ? survey.box() : new Assumption(survey, answer).narrow(condition);
  }

  private Box narrow(Expression part) {
    if (part instanceof Expression.Not not) {
      return narrow(survey, not.operand(), !answer);
    } else if (part instanceof Expression.And and && answer) {
      return both(and.left(), and.right());
    } else if (part instanceof Expression.Or or && !answer) {
      return both(or.left(), or.right());
    } else if (part instanceof Expression.Comparison comparison) {
      return compared(comparison);
    } else if (part instanceof Expression.Is is) {
      return option(is);
    } else if (part instanceof Expression.Call call) {
      return call(call);
    } else if (part instanceof Expression.Reference) {
      return reference(checked.meaningOf(part));
    }
    return survey.box();
  }

  private Box both(Expression left, Expression right) {
    return narrow(survey.assuming(left, answer), right, answer);
  }

  private Box reference(Meaning meaning) {
    if (meaning instanceof Meaning.Use use) {
      return definition(use.term().alternatives());
    }
    return oneOf((Meaning.Slot) meaning, Cell.Options.YES, answer);
  }

  // Of several alternatives it is not known which one applied.
  private Box definition(List<Term.Alternative> alternatives) {
    Term.Alternative first = alternatives.get(0);
    return alternatives.size() == 1 && first.when().isEmpty()
        ? first
            .value()
            .map(body -> narrow(survey.of(body), body.root(), answer))
            .orElse(survey.box())
        : survey.box();
  }

  private Box call(Expression.Call call) {
    if (checked.meaningOf(call) instanceof Meaning.Slot ever) {
      return oneOf(ever, Cell.Options.YES, answer);
    }
    Box box = survey.box();
    Expression subject = call.arguments().get(0); // the only plain function that is a condition
    if (subject instanceof Expression.Reference
        && checked.meaningOf(subject) instanceof Meaning.Slot slot) {
      Presence presence = answer ? Presence.KNOWN : Presence.UNKNOWN;
      return box.with(slot.index(), box.cell(slot.index()).with(presence));
    }
    return box;
  }

  private Box option(Expression.Is is) {
    if (!(checked.meaningOf(is.subject()) instanceof Meaning.Slot slot)) {
      return survey.box();
    }
    long bit = Survey.bit(slot, is.option().text());
    boolean isIt = answer != is.negated();
    return oneOf(slot, !isIt && Survey.isShared(slot, bit) ? 0 : bit, isIt);
  }

  private Box oneOf(Meaning.Slot slot, long wanted, boolean isIt) {
    long options = ((Cell.Options) survey.box().cell(slot.index())).options();
    long left = isIt ? options & wanted : options & ~wanted;
    return survey.box().with(slot.index(), new Cell.Options(left, Presence.KNOWN));
  }

  // A slot on one side and anything on the other: the slot is known and bounded by the other side.
  private Box compared(Expression.Comparison comparison) {
    Relation relation = answer ? comparison.relation() : opposite(comparison.relation());
    Expression left = comparison.left();
    Expression right = comparison.right();
    Box narrower = bounded(left, relation, right, survey.box());
    return bounded(right, mirrored(relation), left, narrower);
  }

  private Box bounded(Expression part, Relation relation, Expression by, Box box) {
    if (!(part instanceof Expression.Reference)
        || !(checked.meaningOf(part) instanceof Meaning.Slot slot)) {
      return box;
    }
    Interval other = survey.number(by);
    if (other.isEmpty()) {
      return box;
    }
    Cell.Range cell = (Cell.Range) box.cell(slot.index());
    double low = cell.low();
    double high = cell.high();
    // To the last double, so that a condition and its contrary leave no crack between them.
    switch (relation) {
      case LESS -> high = Math.min(high, Math.nextDown(lastSame(other.high(), -1)));
      case AT_MOST -> high = Math.min(high, lastSame(other.high(), 1));
      case MORE -> low = Math.max(low, Math.nextUp(lastSame(other.low(), 1)));
      case AT_LEAST -> low = Math.max(low, lastSame(other.low(), -1));
      case EQUAL -> {
        low = Math.max(low, lastSame(other.low(), -1));
        high = Math.min(high, lastSame(other.high(), 1));
      }
      case UNEQUAL -> {
        // nothing to narrow but that it is known
      }
    }
    return box.with(
        slot.index(), low <= high ? Cell.between(low, high) : cell.with(Presence.KNOWN));
  }

  // The number farthest below (-1) or above (1) another that still counts as equal to it.
  private static double lastSame(double number, int direction) {
    if (Double.isInfinite(number)) {
      return number;
    }
    double away = direction * Double.POSITIVE_INFINITY;
    double last = number + direction * Math.abs(number) * 1e-9;
    while (Quantity.same(last, number)) {
      last = Math.nextAfter(last, away);
    }
    while (!Quantity.same(last, number)) {
      last = Math.nextAfter(last, -away);
    }
    return last;
  }

  private static Relation opposite(Relation relation) {
    return switch (relation) {
      case LESS -> Relation.AT_LEAST;
      case AT_MOST -> Relation.MORE;
      case MORE -> Relation.AT_MOST;
      case AT_LEAST -> Relation.LESS;
      case EQUAL -> Relation.UNEQUAL;
      case UNEQUAL -> Relation.EQUAL;
    };
  }

  private static Relation mirrored(Relation relation) {
    return switch (relation) {
      case LESS -> Relation.MORE;
      case AT_MOST -> Relation.AT_LEAST;
      case MORE -> Relation.LESS;
      case AT_LEAST -> Relation.AT_MOST;
      case EQUAL, UNEQUAL -> relation;
    };
  }
}
