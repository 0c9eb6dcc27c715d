package org.gradus.rule.check;

import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Problems;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Type;

/**
 * Checks one tree against a vocabulary. Every name and kind error in it is noted; a part that rests
 * on a part already found wrong is passed over, so that one slip gives one message.
 */
public final class Checker {

  private final Findings findings;

  private Checker(Findings findings) {
    this.findings = findings;
  }

  /** Checks a tree that may evaluate to anything. */
  public static Optional<Checked> any(
      Expression root, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    Findings findings = new Findings(vocabulary, layout, problems);
    return new Checker(findings).type(root).flatMap(type -> findings.close(root));
  }

  /** Checks the tree of an equation against the same names. */
  Optional<Checked> inside(Expression root) {
    Findings inner = findings.insideEquation();
    return new Checker(inner).type(root).flatMap(type -> inner.close(root));
  }

  /** Checks a tree that must be a condition. */
  public static Optional<Checked> condition(
      Expression root, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    Findings findings = new Findings(vocabulary, layout, problems);
    return new Checker(findings).condition(root) ? findings.close(root) : Optional.empty();
  }

  /** Checks a tree that must be a value of one of these kinds. */
  public static Optional<Checked> value(
      Expression root,
      List<Kind> kinds,
      Vocabulary vocabulary,
      Layout.Builder layout,
      Problems problems) {
    Findings findings = new Findings(vocabulary, layout, problems);
    Optional<Kind> kind = new Checker(findings).kind(root);
    if (kind.isPresent() && !kinds.contains(kind.get())) {
      String wanted = kinds.get(0).phrase();
      problems.add(
          root.span(),
          Code.G305,
          root.span().text() + " (" + kind.get().phrase() + ")",
          wanted,
          kinds.get(0).remedy());
      return Optional.empty();
    }
    return kind.flatMap(found -> findings.close(root));
  }

  /** The type of a part; empty when something in it is wrong and has been noted. */
  Optional<Type> type(Expression part) {
    Optional<Type> type = part.accept(new Typing());
    type.ifPresent(found -> findings.typed(part, found));
    return type;
  }

  /** Finds the type of each construct. */
  private final class Typing implements Expression.Visitor<Optional<Type>> {
    @Override
    public Optional<Type> literal(Expression.Literal literal) {
      return measure(literal.quantity().kind());
    }

    @Override
    public Optional<Type> reference(Expression.Reference reference) {
      return findings.reference(reference);
    }

    @Override
    public Optional<Type> call(Expression.Call call) {
      return new Calls(Checker.this, findings).type(call);
    }

    @Override
    public Optional<Type> or(Expression.Or or) {
      return conditions(or.left(), or.right());
    }

    @Override
    public Optional<Type> and(Expression.And and) {
      return conditions(and.left(), and.right());
    }

    @Override
    public Optional<Type> not(Expression.Not not) {
      return conditions(not.operand());
    }

    @Override
    public Optional<Type> comparison(Expression.Comparison comparison) {
      return sameKind(Code.G204, comparison.left(), comparison.right()).map(kind -> Type.CONDITION);
    }

    @Override
    public Optional<Type> arithmetic(Expression.Arithmetic arithmetic) {
      return arithmetic.operator().isAdditive()
          ? sameKind(Code.G205, arithmetic.left(), arithmetic.right()).map(Type.Measure::new)
          : ProductChain.of(arithmetic).type(Checker.this, findings);
    }

    @Override
    public Optional<Type> negation(Expression.Negation negation) {
      return kind(negation.operand()).map(Type.Measure::new);
    }

    @Override
    public Optional<Type> share(Expression.Share share) {
      boolean number = number(share.part(), "a share");
      Optional<Kind> whole = kind(share.whole());
      return number ? whole.map(Type.Measure::new) : Optional.empty();
    }

    @Override
    public Optional<Type> power(Expression.Power power) {
      boolean base = number(power.base(), "a power");
      boolean exponent = number(power.exponent(), "an exponent");
      return base && exponent ? Optional.of(Type.NUMBER) : Optional.empty();
    }

    @Override
    public Optional<Type> asUnit(Expression.AsUnit as) {
      return number(as.operand(), "as " + as.unit().unit().symbol())
          ? measure(as.unit().unit().kind())
          : Optional.empty();
    }

    @Override
    public Optional<Type> choice(Expression.Choice choice) {
      boolean condition = condition(choice.condition());
      Optional<Type> whenTrue = type(choice.whenTrue());
      Optional<Type> whenFalse = type(choice.whenFalse());
      if (whenTrue.isEmpty() || whenFalse.isEmpty()) {
        return Optional.empty();
      }
      if (!whenTrue.equals(whenFalse)) {
        findings.mismatch(
            Code.G216, choice.whenTrue(), whenTrue.get(), choice.whenFalse(), whenFalse.get());
        return Optional.empty();
      }
      if (whenTrue.get() instanceof Type.Choice) {
        findings.problem(
            choice.whenTrue().span(),
            Code.G208,
            whenTrue.get().phrase(),
            "ask for each option with is");
        return Optional.empty();
      }
      return condition ? whenTrue : Optional.empty();
    }

    @Override
    public Optional<Type> between(Expression.Between between) {
      Optional<Kind> low = sameKind(Code.G204, between.value(), between.low());
      Optional<Kind> high = kind(between.high());
      if (low.isEmpty() || high.isEmpty()) {
        return Optional.empty();
      }
      if (!low.equals(high)) {
        findings.mismatch(
            Code.G204,
            between.value(),
            new Type.Measure(low.get()),
            between.high(),
            new Type.Measure(high.get()));
        return Optional.empty();
      }
      return Optional.of(Type.CONDITION);
    }

    @Override
    public Optional<Type> is(Expression.Is is) {
      Optional<Type> subject = type(is.subject());
      if (subject.isEmpty()) {
        return Optional.empty();
      }
      if (!(subject.get() instanceof Type.Choice choice)) {
        findings.problem(
            is.subject().span(), Code.G213, "is", "a choice", "compare values with < <= = >= >");
        return Optional.empty();
      }
      if (!choice.options().contains(is.option().text())) {
        String options = "the options are " + String.join(", ", choice.options());
        findings.problem(
            is.option().span(),
            Code.G211,
            is.option().text(),
            is.subject().span().text(),
            findings.help(is.option().text(), choice.options(), options));
        return Optional.empty();
      }
      return Optional.of(Type.CONDITION);
    }

    @Override
    public Optional<Type> inUnit(Expression.InUnit in) {
      Optional<Kind> kind = kind(in.operand());
      Kind wanted = in.unit().unit().kind();
      if (kind.isPresent() && kind.get() != wanted) {
        findings.problem(
            in.unit().span(),
            Code.G209,
            kind.get().phrase(),
            in.unit().unit().symbol(),
            wanted.words());
        return Optional.empty();
      }
      return kind.map(found -> Type.NUMBER);
    }
  }

  private static Optional<Type> measure(Kind kind) {
    return Optional.of(new Type.Measure(kind));
  }

  /** The kind of a part that must be a value. */
  Optional<Kind> kind(Expression part) {
    Optional<Type> type = type(part);
    if (type.isPresent() && !(type.get() instanceof Type.Measure)) {
      findings.problem(
          part.span(),
          Code.G208,
          type.get().phrase(),
          "a choice is asked with is, a condition stands alone");
      return Optional.empty();
    }
    return type.map(found -> ((Type.Measure) found).kind());
  }

  /** Whether a part is a condition; notes it when it is not. */
  boolean condition(Expression part) {
    Optional<Type> type = type(part);
    if (type.isPresent() && !type.get().equals(Type.CONDITION)) {
      findings.problem(part.span(), Code.G207, type.get().phrase());
      return false;
    }
    return type.isPresent();
  }

  /** Whether a part is a plain number; notes it when it is not. */
  boolean number(Expression part, String user) {
    Optional<Kind> kind = kind(part);
    if (kind.isPresent() && kind.get() != Kind.NUMBER) {
      findings.problem(part.span(), Code.G210, user, kind.get().phrase());
      return false;
    }
    return kind.isPresent();
  }

  private Optional<Type> conditions(Expression... parts) {
    boolean all = true;
    for (Expression part : parts) {
      all &= condition(part);
    }
    return all ? Optional.of(Type.CONDITION) : Optional.empty();
  }

  /** The kind of two parts that must be of one. */
  Optional<Kind> sameKind(Code code, Expression left, Expression right) {
    Optional<Kind> first = kind(left);
    Optional<Kind> second = kind(right);
    if (first.isEmpty() || second.isEmpty()) {
      return Optional.empty();
    }
    if (!first.equals(second)) {
      findings.mismatch(
          code, left, new Type.Measure(first.get()), right, new Type.Measure(second.get()));
      return Optional.empty();
    }
    return first;
  }
}
