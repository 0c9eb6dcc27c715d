package org.gradus.rule.bounds;

import java.util.ArrayList;
import java.util.List;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Evaluates checked trees over a box. */
public final class Bounds {

  private final Checked checked;
  private final Box box;

  Bounds(Checked checked, Box box) {
    this.checked = checked;
    this.box = box;
  }

  /** What a condition could come to anywhere in a box. */
  public static Outcomes outcomes(Checked condition, Box box) {
    return new Bounds(condition, box).truth(condition.root());
  }

  /** What a value could come to anywhere in a box. */
  public static Cell.Range range(Checked value, Box box) {
    Interval interval = new Bounds(value, box).number(value.root());
    return new Cell.Range(interval.low(), interval.high(), interval.presence());
  }

  /** The comparisons in a condition, also inside definitions, that could come out either way. */
  public static List<String> undecided(Checked condition, Box box) {
    List<String> found = new ArrayList<>();
    new Bounds(condition, box).collectUndecided(condition.root(), found);
    return found.stream().distinct().toList();
  }

  private void collectUndecided(Expression part, List<String> found) {
    if (part instanceof Expression.Comparison || part instanceof Expression.Between) {
      Outcomes outcomes = truth(part);
      if (outcomes.canHold() && outcomes.canFail()) {
        found.add(part.span().text().replaceAll("\\s+", " "));
      }
    }
    if (part instanceof Expression.Reference
        && checked.meaningOf(part) instanceof Meaning.Use use) {
      for (Term.Alternative alternative : use.term().alternatives()) {
        alternative
            .when()
            .forEach(when -> new Bounds(when, box).collectUndecided(when.root(), found));
        alternative
            .value()
            .ifPresent(value -> new Bounds(value, box).collectUndecided(value.root(), found));
      }
    }
    boolean ofSlots =
        part instanceof Expression.Call && !(checked.meaningOf(part) instanceof Meaning.Plain);
    if (!ofSlots) {
      part.parts().forEach(inner -> collectUndecided(inner, found));
    }
  }

  Outcomes truth(Expression part) {
    if (part instanceof Expression.And and) {
      return truth(and.left()).and(right(and.left(), true).truth(and.right()));
    } else if (part instanceof Expression.Or or) {
      return truth(or.left()).or(right(or.left(), false).truth(or.right()));
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
    } else if (part instanceof Expression.Call call
        && checked.meaningOf(call) instanceof Meaning.Plain plain
        && plain.function() == Function.KNOWN) {
      return known(call.arguments().get(0));
    }
    Meaning meaning = checked.meaningOf(part);
    return meaning instanceof Meaning.Use use
        ? TermBounds.truth(use.term(), box)
        : fromCell((Cell.Options) box.cell(((Meaning.Slot) meaning).index()));
  }

  // Of "left and right" the right side matters only where the left holds: "known(x) and x > 5".
  // Where
  // the left may be unknown the right side has to be seen for all of the box.
  private Bounds right(Expression left, boolean leftAnswer) {
    return truth(left).canBeUnknown() ? this : assuming(left, leftAnswer);
  }

  static Outcomes fromCell(Cell.Options cell) {
    boolean known = cell.presence().canBeKnown();
    return new Outcomes(
        known && (cell.options() & Cell.Options.YES) != 0,
        known && (cell.options() & Cell.Options.NO) != 0,
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
    Outcomes plain;
    if (subject instanceof Meaning.FixedWord word) {
      plain = word.word().equals(is.option().text()) ? Outcomes.HOLDS : Outcomes.FAILS;
    } else {
      Meaning.Slot slot = (Meaning.Slot) subject;
      Cell.Options cell = (Cell.Options) box.cell(slot.index());
      long bit = 1L << ((Type.Choice) slot.demand().type()).options().indexOf(is.option().text());
      boolean known = cell.presence().canBeKnown();
      plain =
          new Outcomes(
              known && (cell.options() & bit) != 0,
              known && (cell.options() & ~bit) != 0,
              cell.presence().canBeUnknown());
    }
    return is.negated() ? plain.not() : plain;
  }

  private Outcomes choice(Expression.Choice choice) {
    Outcomes condition = truth(choice.condition());
    Outcomes joined = Outcomes.NOTHING;
    if (condition.canHold()) {
      joined = joined.join(assuming(choice.condition(), true).truth(choice.whenTrue()));
    }
    if (condition.canFail()) {
      joined = joined.join(assuming(choice.condition(), false).truth(choice.whenFalse()));
    }
    if (condition.canBeUnknown()) {
      joined =
          joined
              .join(new Outcomes(false, false, true))
              .join(truth(choice.whenTrue()))
              .join(truth(choice.whenFalse()));
    }
    return joined;
  }

  private Bounds assuming(Expression condition, boolean answer) {
    Box narrower =
        answer
            ? Assumption.holds(checked, condition, box)
            : Assumption.fails(checked, condition, box);
    return new Bounds(checked, narrower);
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
    if (part instanceof Expression.Literal literal) {
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

  private Interval share(Expression.Share share) {
    Interval whole = number(share.whole());
    Quantity fixed =
        share.part() instanceof Expression.Literal literal
            ? literal.quantity()
            : share.part() instanceof Expression.Reference
                    && checked.meaningOf(share.part()) instanceof Meaning.Fixed constant
                ? constant.value()
                : Quantity.of(0, Unit.ONE);
    return fixed.unit() == Unit.PERCENT
        ? Interval.point(fixed.amount())
            .combine(Expression.Operator.TIMES, whole)
            .combine(Expression.Operator.OVER, Interval.point(100))
        : number(share.part()).combine(Expression.Operator.TIMES, whole);
  }

  private Interval numberChoice(Expression.Choice choice) {
    Outcomes condition = truth(choice.condition());
    Interval whenTrue = assuming(choice.condition(), true).number(choice.whenTrue());
    Interval whenFalse = assuming(choice.condition(), false).number(choice.whenFalse());
    if (condition.canBeUnknown()) {
      return number(choice.whenTrue()).join(number(choice.whenFalse())).orUnknown(true);
    } else if (condition.canHold() && condition.canFail()) {
      return whenTrue.join(whenFalse);
    }
    return condition.canHold() ? whenTrue : whenFalse;
  }

  private Interval meant(Expression part, Meaning meaning) {
    if (meaning instanceof Meaning.Fixed fixed) {
      return Interval.point(fixed.value().base());
    } else if (meaning instanceof Meaning.Slot slot) {
      return Interval.of(box.cell(slot.index()));
    } else if (meaning instanceof Meaning.Difference difference) {
      return Interval.of(box.cell(difference.now().index()))
          .combine(Expression.Operator.MINUS, Interval.of(box.cell(difference.earlier().index())));
    } else if (meaning instanceof Meaning.Use use) {
      return TermBounds.number(use.term(), box);
    }
    List<Expression> arguments = ((Expression.Call) part).arguments();
    if (meaning instanceof Meaning.Line line) {
      Interval away =
          number(arguments.get(2))
              .combine(Expression.Operator.MINUS, Interval.of(box.cell(line.meanX().index())));
      Interval rise =
          Interval.of(box.cell(line.slope().index())).combine(Expression.Operator.TIMES, away);
      return Interval.of(box.cell(line.meanY().index())).combine(Expression.Operator.PLUS, rise);
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
}
