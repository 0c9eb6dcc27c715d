package org.gradus.rule.plan;

import java.util.ArrayList;
import java.util.List;
import org.gradus.rule.check.Checked;
import org.gradus.rule.check.PartMeaning;
import org.gradus.rule.check.Term;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Turns a checked tree into nodes: names become slots or constants, units become factors. */
public final class NodeBuilder {

  private static final int NO_SLOT = -1;

  private final Checked checked;
  private final int fixedSlot;
  private final double fixedValue;

  // One slot may be taken for a fixed value, to evaluate an equation there.
  private NodeBuilder(Checked checked, int fixedSlot, double fixedValue) {
    this.checked = checked;
    this.fixedSlot = fixedSlot;
    this.fixedValue = fixedValue;
  }

  private NodeBuilder(Checked checked) {
    this(checked, NO_SLOT, 0);
  }

  /** Plans a checked condition. */
  public static TruthNode condition(Checked checked) {
    return new NodeBuilder(checked).truth(checked.root());
  }

  /** Plans a checked value. */
  public static NumberNode value(Checked checked) {
    return new NodeBuilder(checked).number(checked.root());
  }

  /** Plans one part of a checked tree. */
  static Node plan(Checked checked, Expression part) {
    return new NodeBuilder(checked).node(part);
  }

  static Alternatives alternatives(Term term) {
    List<Alternatives.Line> lines = new ArrayList<>();
    for (Term.Alternative alternative : term.alternatives()) {
      List<TruthNode> when = alternative.when().stream().map(NodeBuilder::condition).toList();
      boolean condition = term.type().equals(Type.CONDITION);
      lines.add(
          new Alternatives.Line(
              alternative.label(),
              when,
              condition ? null : alternative.value().map(NodeBuilder::value).orElse(null),
              condition ? alternative.value().map(NodeBuilder::condition).orElse(null) : null));
    }
    return new Alternatives(lines);
  }

  private Node node(Expression part) {
    return part.accept(new Construct());
  }

  private NumberNode number(Expression part) {
    return (NumberNode) node(part);
  }

  private TruthNode truth(Expression part) {
    return (TruthNode) node(part);
  }

  private Node meant(Expression part, List<Expression> arguments) {
    return checked.meaningOf(part).accept(new Meant(part, arguments));
  }

  private boolean isCondition(Expression part) {
    return checked.typeOf(part).filter(Type.CONDITION::equals).isPresent();
  }

  private static boolean isBase(Unit unit) {
    return unit == unit.kind().base();
  }

  /** Plans each construct of the language. */
  private final class Construct implements Expression.Visitor<Node> {
    @Override
    public Node literal(Expression.Literal literal) {
      return new NumberNode.Constant(literal, literal.quantity().base());
    }

    @Override
    public Node reference(Expression.Reference reference) {
      return meant(reference, List.of());
    }

    @Override
    public Node call(Expression.Call call) {
      return meant(call, call.arguments());
    }

    @Override
    public Node choice(Expression.Choice choice) {
      TruthNode condition = truth(choice.condition());
      return isCondition(choice)
          ? new TruthNode.Choice(
              choice, condition, truth(choice.whenTrue()), truth(choice.whenFalse()))
          : new NumberNode.Choice(
              choice, condition, number(choice.whenTrue()), number(choice.whenFalse()));
    }

    @Override
    public Node or(Expression.Or or) {
      return new TruthNode.Or(or, truth(or.left()), truth(or.right()));
    }

    @Override
    public Node and(Expression.And and) {
      return new TruthNode.And(and, truth(and.left()), truth(and.right()));
    }

    @Override
    public Node not(Expression.Not not) {
      return new TruthNode.Not(not, truth(not.operand()));
    }

    @Override
    public Node comparison(Expression.Comparison comparison) {
      return TruthNode.Compare.of(
          comparison, comparison.relation(), number(comparison.left()), number(comparison.right()));
    }

    @Override
    public Node between(Expression.Between between) {
      return new TruthNode.Between(
          between, number(between.value()), number(between.low()), number(between.high()));
    }

    @Override
    public Node is(Expression.Is is) {
      PartMeaning subject = checked.meaningOf(is.subject());
      String option = is.option().text();
      if (subject instanceof PartMeaning.FixedWord fixed) {
        return new TruthNode.Fixed(is, fixed.word().equals(option) != is.negated());
      }
      // A choice that is no setting is always in a slot: no definition and no function is one.
      PartMeaning.Slot slot = (PartMeaning.Slot) subject;
      List<String> options = ((Type.Choice) slot.demand().type()).options();
      return new TruthNode.IsOption(
          is, slot.index(), options.indexOf(option), options.size(), is.negated());
    }

    @Override
    public Node arithmetic(Expression.Arithmetic arithmetic) {
      NumberNode left = number(arithmetic.left());
      NumberNode right = number(arithmetic.right());
      return switch (arithmetic.operator()) {
        case PLUS -> new BinaryNode.Sum(arithmetic, left, right);
        case MINUS -> new BinaryNode.Subtraction(arithmetic, left, right);
        case TIMES -> new BinaryNode.Product(arithmetic, left, right);
        case OVER -> new BinaryNode.Quotient(arithmetic, left, right);
      };
    }

    @Override
    public Node negation(Expression.Negation negation) {
      return new UnaryNode.Negative(negation, number(negation.operand()));
    }

    @Override
    public Node share(Expression.Share share) {
      NumberNode whole = number(share.whole());
      return checked
          .fixed(share.part())
          .filter(fixed -> fixed.unit() == Unit.PERCENT)
          .<Node>map(percent -> new UnaryNode.Percent(share, percent.amount(), whole))
          .orElseGet(() -> new BinaryNode.Product(share, number(share.part()), whole));
    }

    @Override
    public Node power(Expression.Power power) {
      return new BinaryNode.Power(power, number(power.base()), number(power.exponent()));
    }

    @Override
    public Node inUnit(Expression.InUnit in) {
      NumberNode operand = number(in.operand());
      Unit unit = in.unit().unit();
      return isBase(unit) ? operand : new UnaryNode.FromBase(in, operand, unit);
    }

    @Override
    public Node asUnit(Expression.AsUnit as) {
      NumberNode operand = number(as.operand());
      Unit unit = as.unit().unit();
      return isBase(unit) ? operand : new UnaryNode.ToBase(as, operand, unit);
    }
  }

  /** Plans a name or a call by what it means. */
  private final class Meant implements PartMeaning.Visitor<Node> {

    private final Expression part;
    private final List<Expression> arguments;

    Meant(Expression part, List<Expression> arguments) {
      this.part = part;
      this.arguments = arguments;
    }

    private NumberNode argument(int index) {
      return number(arguments.get(index));
    }

    @Override
    public Node slot(PartMeaning.Slot slot) {
      if (slot.index() == fixedSlot) {
        return new NumberNode.Constant(part, fixedValue);
      }
      return isCondition(part)
          ? new TruthNode.Slot(part, slot.index())
          : new NumberNode.Slot(part, slot.index());
    }

    @Override
    public Node difference(PartMeaning.Difference difference) {
      return new NumberNode.Difference(
          part, difference.now().index(), difference.earlier().index());
    }

    @Override
    public Node line(PartMeaning.Line line) {
      return new NumberNode.OnLine(
          part,
          line.meanX().index(),
          line.meanY().index(),
          line.slope().index(),
          argument(arguments.size() - 1));
    }

    @Override
    public Node fixed(PartMeaning.Fixed fixed) {
      return new NumberNode.Constant(part, fixed.value().base());
    }

    // A word is compared where it is planned; by itself it has no value that a node could give.
    @Override
    public Node fixedWord(PartMeaning.FixedWord word) {
      throw new IllegalStateException("a word has no value of its own: " + part.span().text());
    }

    @Override
    public Node use(PartMeaning.Use use) {
      Term term = use.term();
      return isCondition(part)
          ? new TruthNode.Definition(part, term, term.place(), alternatives(term))
          : new NumberNode.Definition(part, term, term.place(), alternatives(term));
    }

    @Override
    public Node reading(PartMeaning.Reading reading) {
      return new UnaryNode.Lookup(part, reading.table(), argument(1));
    }

    @Override
    public Node solution(PartMeaning.Solution solution) {
      return new NumberNode.Solved(part, at(solution, 0), at(solution, 1), argument(2));
    }

    private static NumberNode at(PartMeaning.Solution solution, double load) {
      Checked body = solution.body();
      return new NodeBuilder(body, solution.load().index(), load).number(body.root());
    }

    @Override
    public Node plain(PartMeaning.Plain plain) {
      return switch (plain.function()) {
        case ABS -> absolute(argument(0));
        case LN -> new UnaryNode.Logarithm(part, argument(0));
        case EXP -> new UnaryNode.Exponential(part, argument(0));
        case SQRT -> new UnaryNode.Root(part, argument(0));
        case LESSER -> new BinaryNode.Lesser(part, argument(0), argument(1));
        case GREATER -> new BinaryNode.Greater(part, argument(0), argument(1));
        case ROUND -> new BinaryNode.Rounded(part, argument(0), argument(1));
        case KNOWN -> known(arguments.get(0));
        case CHANGE,
            EARLIER,
            AVERAGE,
            HIGHEST,
            LOWEST,
            EVER,
            COUNT,
            COMPLETED,
            LOOKUP,
            LOAD_FOR,
            EXTRAPOLATE,
            INTERPOLATE,
            EXTRAPOLATE_THROUGH ->
            throw new IllegalStateException("has a meaning of its own: " + part.span().text());
      };
    }

    private Node absolute(NumberNode operand) {
      return operand instanceof NumberNode.Difference change
          ? new NumberNode.AbsoluteDifference(part, change.now(), change.earlier())
          : new UnaryNode.Absolute(part, operand);
    }

    private Node known(Expression subject) {
      if (subject instanceof Expression.Reference
          && checked.meaningOf(subject) instanceof PartMeaning.Slot slot
          && slot.index() != fixedSlot) {
        return new TruthNode.KnownSlot(part, slot.index());
      }
      boolean word = checked.typeOf(subject).filter(Type.Choice.class::isInstance).isPresent();
      return word ? new TruthNode.Fixed(part, true) : new TruthNode.Known(part, node(subject));
    }
  }
}
