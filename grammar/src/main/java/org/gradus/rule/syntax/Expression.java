package org.gradus.rule.syntax;

import java.util.List;
import org.gradus.diagnostic.Span;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/**
 * A condition or a value as it was written. Whether it is the one or the other, and of which kind,
 * is found out by checking, not by the grammar.
 */
public sealed interface Expression {

  /** Where it stands. */
  Span span();

  /** The parts it is made of, in the order of the text. */
  List<Expression> parts();

  /**
   * The comparisons it makes itself: one of two sides, two of a {@code between}, which is {@code
   * value >= low} and {@code value <= high}; most constructs make none.
   */
  default List<Comparison> comparisons() {
    return List.of();
  }

  /** Lets a visitor do what it does with this construct. */
  <R> R accept(Visitor<R> visitor);

  /**
   * What is done with each construct of the language. Work that differs from construct to construct
   * implements it, so that the compiler names every place a new construct has to be added to.
   *
   * @param <R> what comes of it
   */
  interface Visitor<R> {
    /** What is done with {@code if ... then ... else}. */
    R choice(Choice choice);

    /** What is done with {@code or}. */
    R or(Or or);

    /** What is done with {@code and}. */
    R and(And and);

    /** What is done with {@code not}. */
    R not(Not not);

    /** What is done with a comparison. */
    R comparison(Comparison comparison);

    /** What is done with {@code between}. */
    R between(Between between);

    /** What is done with {@code is}. */
    R is(Is is);

    /** What is done with a sum, difference, product or quotient. */
    R arithmetic(Arithmetic arithmetic);

    /** What is done with a sign. */
    R negation(Negation negation);

    /** What is done with {@code of}. */
    R share(Share share);

    /** What is done with a power. */
    R power(Power power);

    /** What is done with {@code in}. */
    R inUnit(InUnit inUnit);

    /** What is done with {@code as}. */
    R asUnit(AsUnit asUnit);

    /** What is done with a figure. */
    R literal(Literal literal);

    /** What is done with a call. */
    R call(Call call);

    /** What is done with a name. */
    R reference(Reference reference);
  }

  /** {@code if condition then whenTrue else whenFalse}. */
  record Choice(Span span, Expression condition, Expression whenTrue, Expression whenFalse)
      implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(condition, whenTrue, whenFalse);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.choice(this);
    }
  }

  /** {@code left or right}. */
  record Or(Span span, Expression left, Expression right) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.or(this);
    }
  }

  /** {@code left and right}. */
  record And(Span span, Expression left, Expression right) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.and(this);
    }
  }

  /** {@code not operand}. */
  record Not(Span span, Expression operand) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.not(this);
    }
  }

  /** {@code left < right} and its kin. */
  record Comparison(Span span, Relation relation, Expression left, Expression right)
      implements Expression {
    @Override
    public List<Comparison> comparisons() {
      return List.of(this);
    }

    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.comparison(this);
    }
  }

  /** {@code value between low and high}, both ends included. */
  record Between(Span span, Expression value, Expression low, Expression high)
      implements Expression {
    @Override
    public List<Comparison> comparisons() {
      return List.of(
          new Comparison(span, Relation.AT_LEAST, value, low),
          new Comparison(span, Relation.AT_MOST, value, high));
    }

    @Override
    public List<Expression> parts() {
      return List.of(value, low, high);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.between(this);
    }
  }

  /** {@code subject is option} or {@code subject is not option}. */
  record Is(Span span, Expression subject, boolean negated, Name option) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(subject);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.is(this);
    }
  }

  /** {@code left + right} and its kin. */
  record Arithmetic(Span span, Operator operator, Expression left, Expression right)
      implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.arithmetic(this);
    }
  }

  /** {@code -operand}. */
  record Negation(Span span, Expression operand) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.negation(this);
    }
  }

  /** {@code part of whole}: {@code 85 % of max_heart_rate}. */
  record Share(Span span, Expression part, Expression whole) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(part, whole);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.share(this);
    }
  }

  /** {@code base ^ exponent}. */
  record Power(Span span, Expression base, Expression exponent) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(base, exponent);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.power(this);
    }
  }

  /** {@code operand in unit}: a quantity made a plain number. */
  record InUnit(Span span, Expression operand, UnitName unit) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.inUnit(this);
    }
  }

  /** {@code operand as unit}: a plain number made a quantity. */
  record AsUnit(Span span, Expression operand, UnitName unit) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.asUnit(this);
    }
  }

  /** {@code 135 bpm}, {@code 10 %}, {@code 0.5}, {@code 2:30}. */
  record Literal(Span span, Quantity quantity) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.literal(this);
    }
  }

  /** {@code change(heart_rate, 1 min)}. */
  record Call(Span span, Name function, List<Expression> arguments) implements Expression {
    public Call {
      arguments = List.copyOf(arguments);
    }

    @Override
    public List<Expression> parts() {
      return arguments;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.call(this);
    }
  }

  /** {@code heart_rate} or {@code resting.systolic}. */
  record Reference(Span span, String name) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of();
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.reference(this);
    }
  }

  /**
   * A word with its place.
   *
   * @param span where it stands
   * @param text the word
   */
  record Name(Span span, String text) {}

  /**
   * A unit with its place.
   *
   * @param span where it stands
   * @param unit the unit
   */
  record UnitName(Span span, Unit unit) {}

  /** How two values are compared. */
  enum Relation {
    /** Below. */
    LESS("<"),
    /** Below or equal. */
    AT_MOST("<="),
    /** Above. */
    MORE(">"),
    /** Above or equal. */
    AT_LEAST(">="),
    /** Equal up to one part in a thousand million. */
    EQUAL("="),
    /** Not equal. */
    UNEQUAL("!=");

    private final String symbol;

    Relation(String symbol) {
      this.symbol = symbol;
    }

    /** The relation as it is written. */
    public String symbol() {
      return symbol;
    }

    /**
     * Whether it applies.
     *
     * @param order below zero when the left side is below the right, zero when they are equal,
     *     above zero when it is above
     */
    public boolean holds(int order) {
      return switch (this) {
        case LESS -> order < 0;
        case AT_MOST -> order <= 0;
        case MORE -> order > 0;
        case AT_LEAST -> order >= 0;
        case EQUAL -> order == 0;
        case UNEQUAL -> order != 0;
      };
    }

    /** The relation that applies where this one does not. */
    public Relation opposite() {
      return switch (this) {
        case LESS -> AT_LEAST;
        case AT_MOST -> MORE;
        case MORE -> AT_MOST;
        case AT_LEAST -> LESS;
        case EQUAL -> UNEQUAL;
        case UNEQUAL -> EQUAL;
      };
    }

    /** The relation of the right side to the left. */
    public Relation mirrored() {
      return switch (this) {
        case LESS -> MORE;
        case AT_MOST -> AT_LEAST;
        case MORE -> LESS;
        case AT_LEAST -> AT_MOST;
        case EQUAL, UNEQUAL -> this;
      };
    }
  }

  /** How two values are joined. */
  enum Operator {
    /** Sum. */
    PLUS("+"),
    /** Difference. */
    MINUS("-"),
    /** Product. */
    TIMES("*"),
    /** Quotient. */
    OVER("/");

    private final String symbol;

    Operator(String symbol) {
      this.symbol = symbol;
    }

    /** The operator as it is written. */
    public String symbol() {
      return symbol;
    }

    /** Whether this is a sum or a difference. */
    public boolean isAdditive() {
      return this == PLUS || this == MINUS;
    }
  }
}
