package org.gradus.rule.bounds;

import java.util.List;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.unit.Unit;

/** One checked tree looked at over one box. */
final class Survey {

  private final Checked checked;
  private final Box box;
  private final Effort effort;

  private Survey(Checked checked, Box box, Effort effort) {
    this.checked = checked;
    this.box = box;
    this.effort = effort;
  }

  static Survey of(Checked checked, Box box) {
    return new Survey(checked, box, new Effort());
  }

  /** Another tree, such as a definition that this one uses, over the same box. */
  Survey of(Checked other) {
    return new Survey(other, box, effort);
  }

  /** The same tree over another box. */
  Survey over(Box other) {
    return new Survey(checked, other, effort);
  }

  /** The same tree over the part of the box in which a condition in it gives this answer. */
  Survey assuming(Expression condition, boolean answer) {
    return over(Assumption.narrow(this, condition, answer));
  }

  Checked checked() {
    return checked;
  }

  Box box() {
    return box;
  }

  boolean isSpent() {
    return effort.isSpent();
  }

  /** Whether something was taken to be possible because the effort was spent. */
  boolean wasSpent() {
    return effort.wasSpent();
  }

  void collectUndecided(Expression part, List<String> found) {
    if (part instanceof Expression.Comparison || part instanceof Expression.Between) {
      Outcomes outcomes = truth(part);
      if (outcomes.canHold() && outcomes.canFail()) {
        found.add(part.span().inOneLine());
      }
    }
    if (part instanceof Expression.Reference
        && checked.meaningOf(part) instanceof Meaning.Use use) {
      for (Term.Alternative alternative : use.term().alternatives()) {
        alternative.when().forEach(when -> of(when).collectUndecided(when.root(), found));
        alternative.value().ifPresent(value -> of(value).collectUndecided(value.root(), found));
      }
    }
    boolean ofSlots =
        part instanceof Expression.Call && !(checked.meaningOf(part) instanceof Meaning.Plain);
    if (!ofSlots) {
      for (Expression inner : part.parts()) {
        collectUndecided(inner, found);
      }
    }
  }

  Outcomes truth(Expression part) {
    if (effort.isSpent()) {
      return Outcomes.ANYTHING;
    } else if (part instanceof Expression.And and) {
      Outcomes left = truth(and.left());
      // Where the left decides, the right has no say.
      return left.alwaysFails() ? left : left.and(right(and.left(), left, true).truth(and.right()));
    } else if (part instanceof Expression.Or or) {
      Outcomes left = truth(or.left());
      return left.alwaysHolds() ? left : left.or(right(or.left(), left, false).truth(or.right()));
    } else if (part instanceof Expression.Not not) {
      return truth(not.operand()).not();
    } else if (part instanceof Expression.Comparison comparison) {
      return compare(comparison);
    } else if (part instanceof Expression.Between between) {
      Interval value = number(between.value());
      return number(between.low()).isAtMost(value).and(value.isAtMost(number(between.high())));
    } else if (part instanceof Expression.Is is) {
      return is(is);
    } else if (part instanceof Expression.Choice choice) {
      return choice(choice);
    }
    Meaning meaning = checked.meaningOf(part);
    if (meaning instanceof Meaning.Plain) {
      return known(((Expression.Call) part).arguments().get(0));
    } else if (meaning instanceof Meaning.Use use) {
      return TermBounds.truth(use.term(), this);
    }
    Cell.Options cell = (Cell.Options) box.cell(((Meaning.Slot) meaning).index());
    return oneOf(cell, Cell.Options.YES);
  }

  // Of "left and right" the right side matters only where the left holds: "known(x) and x > 5".
  // Where the left may be unknown, or surely holds, the right side has to be seen for all of the
  // box.
  private Survey right(Expression left, Outcomes outcomes, boolean leftAnswer) {
    boolean surely = leftAnswer ? outcomes.alwaysHolds() : outcomes.alwaysFails();
    return surely || outcomes.canBeUnknown() ? this : assuming(left, leftAnswer);
  }

  private static Outcomes oneOf(Cell.Options cell, long wanted) {
    boolean known = cell.presence().canBeKnown();
    return new Outcomes(
        known && (cell.options() & wanted) != 0,
        known && (cell.options() & ~wanted) != 0,
        cell.presence().canBeUnknown());
  }

  private Outcomes compare(Expression.Comparison comparison) {
    Interval left = number(comparison.left());
    Interval right = number(comparison.right());
    return switch (comparison.relation()) {
      case LESS -> left.isBelow(right);
      case AT_MOST -> left.isAtMost(right);
      case MORE -> right.isBelow(left);
      case AT_LEAST -> right.isAtMost(left);
      case EQUAL -> left.isEqualTo(right);
      case UNEQUAL -> left.isEqualTo(right).not();
    };
  }

  private Outcomes is(Expression.Is is) {
    Meaning subject = checked.meaningOf(is.subject());
    String option = is.option().text();
    Outcomes plain;
    if (subject instanceof Meaning.FixedWord word) {
      plain = word.word().equals(option) ? Outcomes.HOLDS : Outcomes.FAILS;
    } else {
      Meaning.Slot slot = (Meaning.Slot) subject;
      long bit = bit(slot, option);
      Outcomes outcomes = oneOf((Cell.Options) box.cell(slot.index()), bit);
      // Behind a shared bit there may be another option.
      boolean other = outcomes.canHold() && isShared(slot, bit);
      plain = other ? outcomes.join(Outcomes.FAILS) : outcomes;
    }
    return is.negated() ? plain.not() : plain;
  }

  static long bit(Meaning.Slot choice, String option) {
    return Cell.Options.bit(((Type.Choice) choice.demand().type()).options().indexOf(option));
  }

  static boolean isShared(Meaning.Slot choice, long bit) {
    return bit == Cell.Options.LAST
        && ((Type.Choice) choice.demand().type()).options().size() > Long.SIZE;
  }

  private Outcomes choice(Expression.Choice choice) {
    Outcomes condition = truth(choice.condition());
    if (condition.canBeUnknown()) {
      return Outcomes.UNKNOWN.join(truth(choice.whenTrue())).join(truth(choice.whenFalse()));
    }
    Outcomes joined = Outcomes.NOTHING;
    if (condition.canHold()) {
      joined = joined.join(assuming(choice.condition(), true).truth(choice.whenTrue()));
    }
    if (condition.canFail()) {
      joined = joined.join(assuming(choice.condition(), false).truth(choice.whenFalse()));
    }
    return joined;
  }

  private Outcomes known(Expression subject) {
    Presence presence;
    Type type = checked.typeOf(subject).orElseThrow();
    if (type instanceof Type.Measure) {
      presence = number(subject).presence();
    } else if (type.equals(Type.CONDITION)) {
      Outcomes outcomes = truth(subject);
      presence = Presence.of(outcomes.canHold() || outcomes.canFail(), outcomes.canBeUnknown());
    } else {
      presence =
          checked.meaningOf(subject) instanceof Meaning.Slot slot
              ? box.cell(slot.index()).presence()
              : Presence.KNOWN;
    }
    return new Outcomes(presence.canBeKnown(), presence.canBeUnknown(), false);
  }

  Interval number(Expression part) {
    if (effort.isSpent()) {
      return Interval.ANYTHING;
    } else if (part instanceof Expression.Literal literal) {
      return Interval.point(literal.quantity().base());
    } else if (part instanceof Expression.Arithmetic arithmetic) {
      return number(arithmetic.left()).combine(arithmetic.operator(), number(arithmetic.right()));
    } else if (part instanceof Expression.Negation negation) {
      return number(negation.operand()).negative();
    } else if (part instanceof Expression.Share share) {
      return share(share);
    } else if (part instanceof Expression.Power power) {
      return number(power.base()).power(number(power.exponent()));
    } else if (part instanceof Expression.InUnit in) {
      return number(in.operand()).rising(in.unit().unit()::fromBase);
    } else if (part instanceof Expression.AsUnit as) {
      return number(as.operand()).rising(as.unit().unit()::toBase);
    } else if (part instanceof Expression.Choice choice) {
      return numberChoice(choice);
    }
    return meant(part, checked.meaningOf(part));
  }

  // In the order in which the plan computes it, so that not even a rounding leads out of the range.
  private Interval share(Expression.Share share) {
    Interval whole = number(share.whole());
    return checked
        .fixed(share.part())
        .filter(fixed -> fixed.unit() == Unit.PERCENT)
        .map(
            percent ->
                Interval.point(percent.amount())
                    .combine(Operator.TIMES, whole)
                    .combine(Operator.OVER, Interval.point(100)))
        .orElseGet(() -> number(share.part()).combine(Operator.TIMES, whole));
  }

  private Interval numberChoice(Expression.Choice choice) {
    Outcomes condition = truth(choice.condition());
    if (condition.canBeUnknown()) {
      return number(choice.whenTrue()).join(number(choice.whenFalse())).orUnknown();
    } else if (!condition.canFail()) {
      return assuming(choice.condition(), true).number(choice.whenTrue());
    } else if (!condition.canHold()) {
      return assuming(choice.condition(), false).number(choice.whenFalse());
    }
    return assuming(choice.condition(), true)
        .number(choice.whenTrue())
        .join(assuming(choice.condition(), false).number(choice.whenFalse()));
  }

  private Interval meant(Expression part, Meaning meaning) {
    if (meaning instanceof Meaning.Fixed fixed) {
      return Interval.point(fixed.value().base());
    } else if (meaning instanceof Meaning.Slot slot) {
      return slot(slot);
    } else if (meaning instanceof Meaning.Difference difference) {
      return slot(difference.now()).combine(Operator.MINUS, slot(difference.earlier()));
    } else if (meaning instanceof Meaning.Use use) {
      return TermBounds.number(use.term(), this);
    }
    List<Expression> arguments = ((Expression.Call) part).arguments();
    if (meaning instanceof Meaning.Line line) {
      Interval away = number(arguments.get(2)).combine(Operator.MINUS, slot(line.meanX()));
      Interval rise = slot(line.slope()).combine(Operator.TIMES, away);
      return slot(line.meanY()).combine(Operator.PLUS, rise);
    }
    if (meaning instanceof Meaning.Solution solution) {
      Interval start = at(solution, 0);
      Interval rise = at(solution, 1).combine(Operator.MINUS, start);
      return number(arguments.get(2)).combine(Operator.MINUS, start).combine(Operator.OVER, rise);
    }
    if (meaning instanceof Meaning.Reading reading) {
      return number(arguments.get(1)).through(reading.table());
    }
    Function function = ((Meaning.Plain) meaning).function();
    Interval first = number(arguments.get(0));
    return switch (function) {
      case LESSER -> first.lesser(number(arguments.get(1)));
      case GREATER -> first.greater(number(arguments.get(1)));
      case ROUND -> first.rounded(number(arguments.get(1)));
      default -> first.function(function);
    };
  }

  private Interval at(Meaning.Solution solution, double load) {
    Box there = box.with(solution.load().index(), Cell.between(load, load));
    return of(solution.body()).over(there).number(solution.body().root());
  }

  private Interval slot(Meaning.Slot slot) {
    return Interval.of(box.cell(slot.index()));
  }
}
