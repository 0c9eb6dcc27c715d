package org.gradus.rule.check;

import java.util.List;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;

/** What a name stands for. */
public sealed interface Symbol {

  /** What a use of the name evaluates to. */
  Type type();

  /** Lets a visitor do what it does with this symbol. */
  <R> R accept(Visitor<R> visitor);

  /**
   * What is done with each symbol.
   *
   * @param <R> what comes of it
   */
  interface Visitor<R> {
    /** What is done with something known only while a test runs. */
    R datum(Datum datum);

    /** What is done with a fixed figure. */
    R figure(Figure figure);

    /** What is done with a fixed word. */
    R word(Word word);

    /** What is done with a definition. */
    R definition(Definition definition);

    /** What is done with an equation. */
    R solvable(Solvable solvable);

    /** What is done with a table. */
    R tabled(Tabled tabled);

    /** What is done with a faulty name. */
    R faulty(Faulty faulty);
  }

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

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.datum(this);
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

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.figure(this);
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

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.word(this);
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

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.definition(this);
    }
  }

  /**
   * An equation; it has no value of its own but can be solved by {@code load_for}.
   *
   * @param equation the equation
   */
  record Solvable(SolvableEquation equation) implements Symbol {
    @Override
    public Type type() {
      return Type.NUMBER;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.solvable(this);
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

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.tabled(this);
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

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.faulty(this);
    }
  }
}
