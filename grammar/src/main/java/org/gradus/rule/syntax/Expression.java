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

  /** {@code if condition then whenTrue else whenFalse}. */
  record Choice(Span span, Expression condition, Expression whenTrue, Expression whenFalse)
      implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(condition, whenTrue, whenFalse);
    }
  }

  /** {@code left or right}. */
  record Or(Span span, Expression left, Expression right) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }
  }

  /** {@code left and right}. */
  record And(Span span, Expression left, Expression right) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }
  }

  /** {@code not operand}. */
  record Not(Span span, Expression operand) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }
  }

  /** {@code left < right} and its kin. */
  record Comparison(Span span, Relation relation, Expression left, Expression right)
      implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }
  }

  /** {@code value between low and high}, both ends included. */
  record Between(Span span, Expression value, Expression low, Expression high)
      implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(value, low, high);
    }
  }

  /** {@code subject is option} or {@code subject is not option}. */
  record Is(Span span, Expression subject, boolean negated, Name option) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(subject);
    }
  }

  /** {@code left + right} and its kin. */
  record Arithmetic(Span span, Operator operator, Expression left, Expression right)
      implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(left, right);
    }
  }

  /** {@code -operand}. */
  record Negation(Span span, Expression operand) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }
  }

  /** {@code part of whole}: {@code 85 % of max_heart_rate}. */
  record Share(Span span, Expression part, Expression whole) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(part, whole);
    }
  }

  /** {@code base ^ exponent}. */
  record Power(Span span, Expression base, Expression exponent) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(base, exponent);
    }
  }

  /** {@code operand in unit}: a quantity made a plain number. */
  record InUnit(Span span, Expression operand, UnitName unit) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }
  }

  /** {@code operand as unit}: a plain number made a quantity. */
  record AsUnit(Span span, Expression operand, UnitName unit) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of(operand);
    }
  }

  /** {@code 135 bpm}, {@code 10 %}, {@code 0.5}, {@code 2:30}. */
  record Literal(Span span, Quantity quantity) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of();
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
  }

  /** {@code heart_rate} or {@code resting.systolic}. */
  record Reference(Span span, String name) implements Expression {
    @Override
    public List<Expression> parts() {
      return List.of();
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
