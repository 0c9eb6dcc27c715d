package org.gradus.rule.check;

import java.util.List;
import org.gradus.unit.Quantity;

/** What a name stands for. */
public sealed interface Symbol {

  /** What a use of the name evaluates to. */
  Type type();

  /**
   * Something that is known, or not, only while a test runs.
   *
   * @param demand what has to be known
   * @param role what functions may be asked about it
   */
  record Datum(Demand demand, Role role) implements Symbol {
    @Override
    public Type type() {
      return demand.type();
    }
  }

  /** What a datum is, beyond its type. */
  enum Role {
    /** A value as it stands. */
    FACT,
    /** A reading taken again and again: it has an earlier value, an average, a highest. */
    SIGNAL,
    /** A sign or symptom that is reported when it occurs. */
    SIGN
  }

  /**
   * A figure that is fixed when the file is read: a setting.
   *
   * @param value the figure
   */
  record Figure(Quantity value) implements Symbol {
    @Override
    public Type type() {
      return new Type.Measure(value.kind());
    }
  }

  /**
   * A word that is fixed when the file is read: a setting with named options.
   *
   * @param word the word chosen
   * @param options the words it was chosen from
   */
  record Word(String word, List<String> options) implements Symbol {
    @Override
    public Type type() {
      return new Type.Choice(options);
    }
  }

  /**
   * A definition.
   *
   * @param term what it is defined as
   */
  record Definition(Term term) implements Symbol {
    @Override
    public Type type() {
      return term.type();
    }
  }

  /**
   * An equation; it has no value of its own but can be solved by {@code load_for}.
   *
   * @param equation the equation
   */
  record Solvable(Equation equation) implements Symbol {
    @Override
    public Type type() {
      return Type.NUMBER;
    }
  }

  /**
   * A table; it has no value of its own but gives one to {@code lookup}.
   *
   * @param table the table
   */
  record Tabled(Table table) implements Symbol {
    @Override
    public Type type() {
      return new Type.Measure(table.gives());
    }
  }

  /**
   * A name whose definition is wrong; what is wrong has been said, and its uses are passed over.
   */
  record Faulty() implements Symbol {
    @Override
    public Type type() {
      return Type.NUMBER;
    }
  }
}
