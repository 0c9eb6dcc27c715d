package org.gradus.rule.plan;

import java.util.ArrayList;
import java.util.List;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.Function;
import org.gradus.rule.check.Meaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.check.Type;
import org.gradus.rule.syntax.Expression;
import org.gradus.rule.syntax.Expression.Operator;
import org.gradus.unit.Unit;

/** Turns a checked tree into nodes: names become slots or constants, units become factors. */
public final class Planner {

  private static final int NO_SLOT = -1;

  private final Checked checked;
  private final int fixedSlot;
  private final double fixedValue;

  // One slot may be taken for a fixed value, to look at an equation there.
  private Planner(Checked checked, int fixedSlot, double fixedValue) {
    this.checked = checked;
    this.fixedSlot = fixedSlot;
    this.fixedValue = fixedValue;
  }

  private Planner(Checked checked) {
    this(checked, NO_SLOT, 0);
  }

  /** Plans a checked condition. */
  public static TruthNode condition(Checked checked) {
    return new Planner(checked).truth(checked.root());
  }

  /** Plans a checked value. */
  public static NumberNode value(Checked checked) {
    return new Planner(checked).number(checked.root());
  }

  static Node plan(Checked checked) {
    return new Planner(checked).node(checked.root());
  }

  /** Plans one part of a checked tree. */
  static Node plan(Checked checked, Expression part) {
    return new Planner(checked).node(part);
  }

  private Node node(Expression part) {
    boolean condition = checked.typeOf(part).filter(Type.CONDITION::equals).isPresent();
    return condition ? truth(part) : number(part);
  }

  private NumberNode number(Expression part) {
    if (part instanceof Expression.Literal literal) {
      return new NumberNode.Constant(part, literal.quantity().base());
    } else if (part instanceof Expression.Reference) {
      return numberMeant(part, checked.meaningOf(part));
    } else if (part instanceof Expression.Call call) {
      return call(call);
    } else if (part instanceof Expression.Choice choice) {
      return new NumberNode.Choice(
          part, truth(choice.condition()), number(choice.whenTrue()), number(choice.whenFalse()));
    } else if (part instanceof Expression.Arithmetic arithmetic) {
      return arithmetic(
          arithmetic.operator(), part, number(arithmetic.left()), number(arithmetic.right()));
    } else if (part instanceof Expression.Negation negation) {
      return new UnaryNode.Negative(part, number(negation.operand()));
    } else if (part instanceof Expression.Share share) {
      return share(share);
    } else if (part instanceof Expression.Power power) {
      return new BinaryNode.Power(part, number(power.base()), number(power.exponent()));
    } else if (part instanceof Expression.InUnit in) {
      NumberNode operand = number(in.operand());
      return isBase(in.unit().unit())
          ? operand
          : new UnaryNode.FromBase(part, operand, in.unit().unit());
    } else if (part instanceof Expression.AsUnit as) {
      NumberNode operand = number(as.operand());
      return isBase(as.unit().unit())
          ? operand
          : new UnaryNode.ToBase(part, operand, as.unit().unit());
    }
    throw new IllegalStateException("not a value: " + part.span().text());
  }

  private static boolean isBase(Unit unit) {
    return unit == unit.kind().base();
  }

  private static NumberNode arithmetic(
      Operator operator, Expression part, NumberNode left, NumberNode right) {
    return switch (operator) {
      case PLUS -> new BinaryNode.Sum(part, left, right);
      case MINUS -> new BinaryNode.Subtraction(part, left, right);
      case TIMES -> new BinaryNode.Product(part, left, right);
      case OVER -> new BinaryNode.Quotient(part, left, right);
    };
  }

  private NumberNode share(Expression.Share share) {
    NumberNode whole = number(share.whole());
    return checked
        .fixed(share.part())
        .filter(fixed -> fixed.unit() == Unit.PERCENT)
        .<NumberNode>map(percent -> new UnaryNode.Percent(share, percent.amount(), whole))
        .orElseGet(() -> new BinaryNode.Product(share, number(share.part()), whole));
  }

  private NumberNode numberMeant(Expression part, Meaning meaning) {
    if (meaning instanceof Meaning.Slot slot) {
      return slot.index() == fixedSlot
          ? new NumberNode.Constant(part, fixedValue)
          : new NumberNode.Slot(part, slot.index());
    } else if (meaning instanceof Meaning.Fixed fixed) {
      return new NumberNode.Constant(part, fixed.value().base());
    } else if (meaning instanceof Meaning.Use use) {
      return new NumberNode.Definition(
          part, use.term(), use.term().place(), alternatives(use.term()));
    } else if (meaning instanceof Meaning.Difference difference) {
      return new NumberNode.Difference(
          part, difference.now().index(), difference.earlier().index());
    }
    throw new IllegalStateException("not a value: " + part.span().text());
  }

  private NumberNode call(Expression.Call call) {
    List<Expression> arguments = call.arguments();
    Meaning meaning = checked.meaningOf(call);
    if (meaning instanceof Meaning.Line line) {
      return new NumberNode.OnLine(
          call,
          line.meanX().index(),
          line.meanY().index(),
          line.slope().index(),
          number(arguments.get(2)));
    }
    if (meaning instanceof Meaning.Solution solution) {
      return new NumberNode.Solved(
          call, at(solution, 0), at(solution, 1), number(arguments.get(2)));
    }
    if (meaning instanceof Meaning.Reading reading) {
      return new UnaryNode.Lookup(call, reading.table(), number(arguments.get(1)));
    }
    if (!(meaning instanceof Meaning.Plain plain)) {
      return numberMeant(call, meaning);
    }
    NumberNode first = number(arguments.get(0));
    return switch (plain.function()) {
      case ABS ->
          first instanceof NumberNode.Difference change
              ? new NumberNode.AbsoluteDifference(call, change.now(), change.earlier())
              : new UnaryNode.Absolute(call, first);
      case LN -> new UnaryNode.Logarithm(call, first);
      case EXP -> new UnaryNode.Exponential(call, first);
      case SQRT -> new UnaryNode.Root(call, first);
      case LESSER -> new BinaryNode.Lesser(call, first, number(arguments.get(1)));
      case GREATER -> new BinaryNode.Greater(call, first, number(arguments.get(1)));
      case ROUND -> new BinaryNode.Rounded(call, first, number(arguments.get(1)));
      default -> throw new IllegalStateException("not a plain function: " + call.span().text());
    };
  }

  private static NumberNode at(Meaning.Solution solution, double load) {
    Checked body = solution.body();
    return new Planner(body, solution.load().index(), load).number(body.root());
  }

  private TruthNode truth(Expression part) {
    if (part instanceof Expression.And and) {
      return new TruthNode.And(part, truth(and.left()), truth(and.right()));
    } else if (part instanceof Expression.Or or) {
      return new TruthNode.Or(part, truth(or.left()), truth(or.right()));
    } else if (part instanceof Expression.Not not) {
      return new TruthNode.Not(part, truth(not.operand()));
    } else if (part instanceof Expression.Comparison comparison) {
      return TruthNode.Compare.of(
          part, comparison.relation(), number(comparison.left()), number(comparison.right()));
    } else if (part instanceof Expression.Between between) {
      return new TruthNode.Between(
          part, number(between.value()), number(between.low()), number(between.high()));
    } else if (part instanceof Expression.Is is) {
      return is(is);
    } else if (part instanceof Expression.Choice choice) {
      return new TruthNode.Choice(
          part, truth(choice.condition()), truth(choice.whenTrue()), truth(choice.whenFalse()));
    } else if (part instanceof Expression.Call call && isKnown(call)) {
      return known(call);
    }
    Meaning meaning = checked.meaningOf(part);
    if (meaning instanceof Meaning.Use use) {
      return new TruthNode.Definition(
          part, use.term(), use.term().place(), alternatives(use.term()));
    }
    return new TruthNode.Slot(part, ((Meaning.Slot) meaning).index());
  }

  private boolean isKnown(Expression.Call call) {
    return checked.meaningOf(call) instanceof Meaning.Plain plain
        && plain.function() == Function.KNOWN;
  }

  private TruthNode known(Expression.Call call) {
    Expression subject = call.arguments().get(0);
    if (subject instanceof Expression.Reference
        && checked.meaningOf(subject) instanceof Meaning.Slot slot
        && slot.index() != fixedSlot) {
      return new TruthNode.KnownSlot(call, slot.index());
    }
    boolean word = checked.typeOf(subject).filter(Type.Choice.class::isInstance).isPresent();
    return word ? new TruthNode.Fixed(call, true) : new TruthNode.Known(call, node(subject));
  }

  private TruthNode is(Expression.Is is) {
    Meaning subject = checked.meaningOf(is.subject());
    String option = is.option().text();
    if (subject instanceof Meaning.FixedWord fixed) {
      return new TruthNode.Fixed(is, fixed.word().equals(option) != is.negated());
    }
    Meaning.Slot slot = (Meaning.Slot) subject;
    Type.Choice choice = (Type.Choice) slot.demand().type();
    return new TruthNode.IsOption(
        is, slot.index(), choice.options().indexOf(option), choice.options().size(), is.negated());
  }

  static Alternatives alternatives(Term term) {
    List<Alternatives.Line> lines = new ArrayList<>();
    for (Term.Alternative alternative : term.alternatives()) {
      List<TruthNode> when = alternative.when().stream().map(Planner::condition).toList();
      Node value = alternative.value().map(Planner::plan).orElse(null);
      lines.add(new Alternatives.Line(alternative.label(), when, value));
    }
    return new Alternatives(lines);
  }
}
