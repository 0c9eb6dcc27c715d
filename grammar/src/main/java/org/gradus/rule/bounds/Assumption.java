package org.gradus.rule.bounds;

import java.util.List;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Relation;

/**
 * Narrows a box to the part in which a condition holds, or is known to fail. What a condition says
 * in a way that is not understood here narrows nothing, which is always safe.
 */
public final class Assumption {

  private final Checked checked;
  private final boolean answer;

  private Assumption(Checked checked, boolean answer) {
    this.checked = checked;
    this.answer = answer;
  }

  /** The part of a box in which a condition holds. */
  public static Box holds(Checked condition, Box box) {
    return holds(condition, condition.root(), box);
  }

  /** The part of a box in which a condition is known to fail. */
  public static Box fails(Checked condition, Box box) {
    return fails(condition, condition.root(), box);
  }

  static Box holds(Checked checked, Expression condition, Box box) {
    return new Assumption(checked, true).narrow(condition, box);
  }

  static Box fails(Checked checked, Expression condition, Box box) {
    return new Assumption(checked, false).narrow(condition, box);
  }

  private Box narrow(Expression part, Box box) {
    if (part instanceof Expression.Not not) {
      return new Assumption(checked, !answer).narrow(not.operand(), box);
    } else if (part instanceof Expression.And and && answer) {
      return narrow(and.right(), narrow(and.left(), box));
    } else if (part instanceof Expression.Or or && !answer) {
      return narrow(or.right(), narrow(or.left(), box));
    } else if (part instanceof Expression.Comparison comparison) {
      return compared(comparison, box);
    } else if (part instanceof Expression.Is is) {
      return option(is, box);
    } else if (part instanceof Expression.Call call) {
      return call(call, box);
    } else if (part instanceof Expression.Reference) {
      return reference(checked.meaningOf(part), box);
    }
    return box;
  }

  private Box reference(Meaning meaning, Box box) {
    if (meaning instanceof Meaning.Slot slot) {
      return box.with(slot.index(), Cell.condition(answer));
    } else if (meaning instanceof Meaning.Use use) {
      List<Term.Alternative> alternatives = use.term().alternatives();
      boolean plain = alternatives.size() == 1 && alternatives.get(0).when().isEmpty();
      return plain
          ? alternatives
              .get(0)
              .value()
              .map(body -> new Assumption(body, answer).narrow(body.root(), box))
              .orElse(box)
          : box;
    }
    return box;
  }

  private Box call(Expression.Call call, Box box) {
    Meaning meaning = checked.meaningOf(call);
    if (meaning instanceof Meaning.Slot slot) {
      return box.with(slot.index(), Cell.condition(answer));
    }
    boolean known = meaning instanceof Meaning.Plain plain && plain.function() == Function.KNOWN;
    Expression subject = call.arguments().get(0);
    if (known
        && subject instanceof Expression.Reference
        && checked.meaningOf(subject) instanceof Meaning.Slot slot) {
      Presence presence = answer ? Presence.KNOWN : Presence.UNKNOWN;
      return box.with(slot.index(), box.cell(slot.index()).with(presence));
    }
    return box;
  }

  private Box option(Expression.Is is, Box box) {
    if (!(checked.meaningOf(is.subject()) instanceof Meaning.Slot slot)) {
      return box;
    }
    long bit = 1L << ((Type.Choice) slot.demand().type()).options().indexOf(is.option().text());
    long options = ((Cell.Options) box.cell(slot.index())).options();
    long left = answer != is.negated() ? options & bit : options & ~bit;
    return box.with(slot.index(), new Cell.Options(left, Presence.KNOWN));
  }

  // A slot on one side and anything on the other: the slot is known and bounded by the other side.
  private Box compared(Expression.Comparison comparison, Box box) {
    Bounds bounds = new Bounds(checked, box);
    Relation relation = answer ? comparison.relation() : opposite(comparison.relation());
    Box left = bounded(comparison.left(), relation, bounds.number(comparison.right()), box);
    return bounded(comparison.right(), mirrored(relation), bounds.number(comparison.left()), left);
  }

  private Box bounded(Expression part, Relation relation, Interval other, Box box) {
    boolean slot =
        part instanceof Expression.Reference && checked.meaningOf(part) instanceof Meaning.Slot;
    if (!slot || other.isEmpty()) {
      return box;
    }
    int index = ((Meaning.Slot) checked.meaningOf(part)).index();
    Cell.Range cell = (Cell.Range) box.cell(index);
    double low = cell.low();
    double high = cell.high();
    // Ends stay included and a hair wide: an end that cannot happen is harmless, a lost one is not.
    switch (relation) {
      case LESS, AT_MOST -> high = Math.min(high, widened(other.high(), 1));
      case MORE, AT_LEAST -> low = Math.max(low, widened(other.low(), -1));
      case EQUAL -> {
        low = Math.max(low, widened(other.low(), -1));
        high = Math.min(high, widened(other.high(), 1));
      }
      case UNEQUAL -> {
        // nothing to narrow but that it is known
      }
    }
    return box.with(index, low <= high ? Cell.between(low, high) : cell.with(Presence.KNOWN));
  }

  private static double widened(double end, int direction) {
    return end + direction * Math.abs(end) * 2e-9;
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
