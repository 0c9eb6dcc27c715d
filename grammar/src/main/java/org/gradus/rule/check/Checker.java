package org.gradus.rule.check;

import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.Diagnostic;
import org.gradus.diagnostic.Diagnostic.Label;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.diagnostic.Suggestion;
import org.gradus.rule.syntax.Expression;
import org.gradus.unit.Kind;
import org.gradus.unit.Quantity;

/**
 * Checks one tree against a vocabulary. Every name and kind error in it is noted; a part that rests
 * on a part already found wrong is passed over, so that one slip gives one message.
 */
public final class Checker {

  private final Vocabulary vocabulary;
  private final Layout.Builder layout;
  private final Problems problems;
  private final IdentityHashMap<Expression, Type> types = new IdentityHashMap<>();
  private final IdentityHashMap<Expression, Meaning> meanings = new IdentityHashMap<>();

  private Checker(Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    this.vocabulary = vocabulary;
    this.layout = layout;
    this.problems = problems;
  }

  /** Checks a tree that may evaluate to anything. */
  public static Optional<Checked> any(
      Expression root, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    Checker checker = new Checker(vocabulary, layout, problems);
    return checker.finish(root, checker.type(root));
  }

  /** Checks a tree that must be a condition. */
  public static Optional<Checked> condition(
      Expression root, Vocabulary vocabulary, Layout.Builder layout, Problems problems) {
    Checker checker = new Checker(vocabulary, layout, problems);
    return checker.finish(
        root, checker.condition(root) ? Optional.of(Type.CONDITION) : Optional.empty());
  }

  /** Checks a tree that must be a value of one of these kinds. */
  public static Optional<Checked> value(
      Expression root,
      List<Kind> kinds,
      Vocabulary vocabulary,
      Layout.Builder layout,
      Problems problems) {
    Checker checker = new Checker(vocabulary, layout, problems);
    Optional<Kind> kind = checker.kind(root);
    if (kind.isPresent() && !kinds.contains(kind.get())) {
      String wanted = kinds.get(0).phrase();
      problems.add(
          root.span(),
          Code.G305,
          root.span().text() + " (" + kind.get().phrase() + ")",
          wanted,
          "give it in units such as " + kinds.get(0).base().symbol());
      return Optional.empty();
    }
    return checker.finish(root, kind.map(Type.Measure::new));
  }

  private Optional<Checked> finish(Expression root, Optional<Type> type) {
    return type.map(found -> new Checked(root, types, meanings));
  }

  /** The type of a part; empty when something in it is wrong and has been noted. */
  Optional<Type> type(Expression part) {
    Optional<Type> type = typeOf(part);
    type.ifPresent(found -> types.put(part, found));
    return type;
  }

  private Optional<Type> typeOf(Expression part) {
    if (part instanceof Expression.Literal literal) {
      return measure(literal.quantity().kind());
    } else if (part instanceof Expression.Reference reference) {
      return reference(reference);
    } else if (part instanceof Expression.Call call) {
      return new Calls(this).type(call);
    } else if (part instanceof Expression.Choice choice) {
      return choice(choice);
    } else if (part instanceof Expression.Or or) {
      return conditions(or.left(), or.right());
    } else if (part instanceof Expression.And and) {
      return conditions(and.left(), and.right());
    } else if (part instanceof Expression.Not not) {
      return conditions(not.operand());
    } else if (part instanceof Expression.Comparison comparison) {
      return compared(comparison.left(), comparison.right());
    } else if (part instanceof Expression.Between between) {
      return between(between);
    } else if (part instanceof Expression.Is is) {
      return is(is);
    } else if (part instanceof Expression.Arithmetic sum && sum.operator().isAdditive()) {
      return sum(sum);
    } else if (part instanceof Expression.Arithmetic product) {
      return ProductChain.of(product).type(this);
    } else if (part instanceof Expression.Negation negation) {
      return kind(negation.operand()).map(Type.Measure::new);
    } else if (part instanceof Expression.Share share) {
      boolean number = number(share.part(), "a share");
      Optional<Kind> whole = kind(share.whole());
      return number ? whole.map(Type.Measure::new) : Optional.empty();
    } else if (part instanceof Expression.Power power) {
      boolean base = number(power.base(), "a power");
      boolean exponent = number(power.exponent(), "an exponent");
      return base && exponent ? Optional.of(Type.NUMBER) : Optional.empty();
    } else if (part instanceof Expression.InUnit in) {
      return inUnit(in);
    }
    Expression.AsUnit as = (Expression.AsUnit) part;
    return number(as.operand(), "as " + as.unit().unit().symbol())
        ? measure(as.unit().unit().kind())
        : Optional.empty();
  }

  private static Optional<Type> measure(Kind kind) {
    return Optional.of(new Type.Measure(kind));
  }

  /** The kind of a part that must be a value. */
  Optional<Kind> kind(Expression part) {
    Optional<Type> type = type(part);
    if (type.isPresent() && !(type.get() instanceof Type.Measure)) {
      problems.add(
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
      problems.add(part.span(), Code.G207, type.get().phrase());
      return false;
    }
    return type.isPresent();
  }

  /** Whether a part is a plain number; notes it when it is not. */
  boolean number(Expression part, String user) {
    Optional<Kind> kind = kind(part);
    if (kind.isPresent() && kind.get() != Kind.NUMBER) {
      problems.add(part.span(), Code.G210, user, kind.get().phrase());
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

  private Optional<Type> reference(Expression.Reference reference) {
    Optional<Symbol> symbol = vocabulary.meaning(reference.name());
    if (symbol.isEmpty()) {
      unknown(reference);
      return Optional.empty();
    }
    if (symbol.get() instanceof Symbol.Faulty) {
      return Optional.empty();
    }
    meanings.put(reference, meaning(symbol.get()));
    return Optional.of(symbol.get().type());
  }

  private Meaning meaning(Symbol symbol) {
    if (symbol instanceof Symbol.Datum datum) {
      return slot(datum.demand());
    } else if (symbol instanceof Symbol.Figure figure) {
      return new Meaning.Fixed(figure.value());
    } else if (symbol instanceof Symbol.Word word) {
      return new Meaning.FixedWord(word.word());
    }
    return new Meaning.Use(((Symbol.Definition) symbol).term());
  }

  Meaning.Slot slot(Demand demand) {
    return new Meaning.Slot(layout.slot(demand), demand);
  }

  void unknown(Expression.Reference reference) {
    problems.add(
        reference.span(),
        Code.G201,
        reference.name(),
        Suggestion.help(
            reference.name(),
            vocabulary.names(),
            "define it, or declare it as a setting, input or sign"));
  }

  private Optional<Type> choice(Expression.Choice choice) {
    boolean condition = condition(choice.condition());
    Optional<Type> whenTrue = type(choice.whenTrue());
    Optional<Type> whenFalse = type(choice.whenFalse());
    if (whenTrue.isEmpty() || whenFalse.isEmpty()) {
      return Optional.empty();
    }
    if (!whenTrue.equals(whenFalse)) {
      mismatch(Code.G216, choice.whenTrue(), whenTrue.get(), choice.whenFalse(), whenFalse.get());
      return Optional.empty();
    }
    if (whenTrue.get() instanceof Type.Choice) {
      problems.add(
          choice.whenTrue().span(),
          Code.G208,
          whenTrue.get().phrase(),
          "ask for each option with is");
      return Optional.empty();
    }
    return condition ? whenTrue : Optional.empty();
  }

  private Optional<Type> compared(Expression left, Expression right) {
    return sameKind(Code.G204, left, right).map(kind -> Type.CONDITION);
  }

  private Optional<Type> between(Expression.Between between) {
    Optional<Kind> low = sameKind(Code.G204, between.value(), between.low());
    Optional<Kind> high = kind(between.high());
    if (low.isEmpty() || high.isEmpty()) {
      return Optional.empty();
    }
    if (!low.equals(high)) {
      mismatch(
          Code.G204,
          between.value(),
          new Type.Measure(low.get()),
          between.high(),
          new Type.Measure(high.get()));
      return Optional.empty();
    }
    return Optional.of(Type.CONDITION);
  }

  private Optional<Type> sum(Expression.Arithmetic sum) {
    return sameKind(Code.G205, sum.left(), sum.right()).map(Type.Measure::new);
  }

  /** The kind of two parts that must be of one. */
  Optional<Kind> sameKind(Code code, Expression left, Expression right) {
    Optional<Kind> first = kind(left);
    Optional<Kind> second = kind(right);
    if (first.isEmpty() || second.isEmpty()) {
      return Optional.empty();
    }
    if (!first.equals(second)) {
      mismatch(code, left, new Type.Measure(first.get()), right, new Type.Measure(second.get()));
      return Optional.empty();
    }
    return first;
  }

  private void mismatch(Code code, Expression left, Type first, Expression right, Type second) {
    // The later part is the likelier slip: the text reads well up to there.
    problems.add(
        new Diagnostic(
            code,
            List.of(new Label(right.span(), noun(second)), new Label(left.span(), noun(first))),
            List.of(first.phrase(), second.phrase(), unitOf(first))));
  }

  private static String noun(Type type) {
    return type instanceof Type.Measure measure ? measure.kind().words() : type.phrase();
  }

  private static String unitOf(Type type) {
    return type instanceof Type.Measure measure && measure.kind() != Kind.NUMBER
        ? measure.kind().base().symbol()
        : "bpm";
  }

  private Optional<Type> is(Expression.Is is) {
    Optional<Type> subject = type(is.subject());
    if (subject.isEmpty()) {
      return Optional.empty();
    }
    if (!(subject.get() instanceof Type.Choice choice)) {
      problems.add(
          is.subject().span(), Code.G213, "is", "a choice", "compare values with < <= = >= >");
      return Optional.empty();
    }
    if (!choice.options().contains(is.option().text())) {
      String options = "the options are " + String.join(", ", choice.options());
      problems.add(
          is.option().span(),
          Code.G211,
          is.option().text(),
          is.subject().span().text(),
          Suggestion.help(is.option().text(), choice.options(), options));
      return Optional.empty();
    }
    return Optional.of(Type.CONDITION);
  }

  private Optional<Type> inUnit(Expression.InUnit in) {
    Optional<Kind> kind = kind(in.operand());
    Kind wanted = in.unit().unit().kind();
    if (kind.isPresent() && kind.get() != wanted) {
      problems.add(
          in.unit().span(),
          Code.G209,
          kind.get().phrase(),
          in.unit().unit().symbol(),
          wanted.words());
      return Optional.empty();
    }
    return kind.map(found -> Type.NUMBER);
  }

  Optional<Symbol> symbol(Expression part) {
    return part instanceof Expression.Reference reference
        ? vocabulary.meaning(reference.name())
        : Optional.empty();
  }

  /** The value of a part that is fixed when the file is read. */
  Optional<Quantity> constant(Expression part) {
    if (part instanceof Expression.Literal literal) {
      return Optional.of(literal.quantity());
    }
    return symbol(part)
        .filter(Symbol.Figure.class::isInstance)
        .map(figure -> ((Symbol.Figure) figure).value());
  }

  void means(Expression part, Meaning meaning) {
    meanings.put(part, meaning);
  }

  void problem(Span where, Code code, String... arguments) {
    problems.add(where, code, arguments);
  }

  List<String> names() {
    return List.copyOf(vocabulary.names());
  }
}
