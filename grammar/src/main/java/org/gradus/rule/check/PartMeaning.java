package org.gradus.rule.check;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.gradus.unit.Quantity;

/** What the checker found out about a part of a tree, beyond its type. */
public sealed interface PartMeaning {

  /** Every slot that it reads, also by way of definitions. */
  Set<Slot> slots();

  /** The checked texts that it stands for, each as often as it is evaluated. */
  List<Checked> texts();

  /** The reading or other value that it shows, by itself or as a change; empty for all else. */
  default Optional<Demand> shown() {
    return Optional.empty();
  }

  /** What stands between the brackets when it is the meaning of a call. */
  Arguments arguments();

  /** Whether it is the same on every frame, as a setting is. */
  default boolean isFixed() {
    return arguments() == Arguments.NAMES && slots().isEmpty() && texts().isEmpty();
  }

  /** What the arguments of a call are. */
  enum Arguments {
    /** Names and times, which have no value of their own here. */
    NAMES,
    /** Names, and last a value. */
    LAST_IS_VALUE,
    /** Values. */
    VALUES
  }

  /** Lets a visitor do what it does with this meaning. */
  <R> R accept(Visitor<R> visitor);

  /**
   * What is done with each meaning.
   *
   * @param <R> what comes of it
   */
  interface Visitor<R> {
    /** What is done with the value of a slot. */
    R slot(Slot slot);

    /** What is done with the difference of two slots. */
    R difference(Difference difference);

    /** What is done with a value on a line. */
    R line(Line line);

    /** What is done with a fixed figure. */
    R fixed(Fixed fixed);

    /** What is done with a fixed word. */
    R fixedWord(FixedWord fixedWord);

    /** What is done with the use of a definition. */
    R use(Use use);

    /** What is done with a value of a table. */
    R reading(Reading reading);

    /** What is done with the solution of an equation. */
    R solution(Solution solution);

    /** What is done with the call of a plain function. */
    R plain(Plain plain);
  }

  /**
   * The value is in a slot.
   *
   * @param index the slot
   * @param demand what the slot holds
   */
  record Slot(int index, Demand demand) implements PartMeaning {
    @Override
    public Optional<Demand> shown() {
      return Optional.of(demand);
    }

    @Override
    public Set<Slot> slots() {
      return Set.of(this);
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.NAMES;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.slot(this);
    }
  }

  /**
   * The value is the difference of two slots.
   *
   * @param now the later value
   * @param earlier the earlier value
   */
  record Difference(Slot now, Slot earlier) implements PartMeaning {
    @Override
    public Optional<Demand> shown() {
      return now.shown();
    }

    @Override
    public Set<Slot> slots() {
      return Set.of(now, earlier);
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.NAMES;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.difference(this);
    }
  }

  /**
   * The value is read from a line.
   *
   * @param meanX slot of the mean x
   * @param meanY slot of the mean y
   * @param slope slot of the slope
   */
  record Line(Slot meanX, Slot meanY, Slot slope) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return Set.of(meanX, meanY, slope);
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.LAST_IS_VALUE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.line(this);
    }
  }

  /**
   * A figure that is fixed when the file is read.
   *
   * @param value the figure
   */
  record Fixed(Quantity value) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return Set.of();
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.NAMES;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.fixed(this);
    }
  }

  /**
   * An answer to {@code is} that is fixed when the file is read.
   *
   * @param word the word that was chosen
   */
  record FixedWord(String word) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return Set.of();
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.NAMES;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.fixedWord(this);
    }
  }

  /**
   * A definition is used.
   *
   * @param term the definition
   */
  record Use(Term term) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return texts().stream()
          .flatMap(text -> text.slots().stream())
          .collect(Collectors.toUnmodifiableSet());
    }

    @Override
    public List<Checked> texts() {
      return term.texts();
    }

    @Override
    public Arguments arguments() {
      return Arguments.NAMES;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.use(this);
    }
  }

  /**
   * The value is read from a table.
   *
   * @param table the table
   */
  record Reading(Table table) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return Set.of();
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.LAST_IS_VALUE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.reading(this);
    }
  }

  /**
   * An equation is solved for one of its loads.
   *
   * @param body the equation
   * @param load the load that is sought
   */
  record Solution(Checked body, Slot load) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return body.slots().stream()
          .filter(slot -> !slot.equals(load))
          .collect(Collectors.toUnmodifiableSet());
    }

    @Override
    public List<Checked> texts() {
      return List.of(body, body); // without the load, and with one unit of it
    }

    @Override
    public Arguments arguments() {
      return Arguments.LAST_IS_VALUE;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.solution(this);
    }
  }

  /**
   * A function is called.
   *
   * @param function which
   */
  record Plain(Function function) implements PartMeaning {
    @Override
    public Set<Slot> slots() {
      return Set.of();
    }

    @Override
    public List<Checked> texts() {
      return List.of();
    }

    @Override
    public Arguments arguments() {
      return Arguments.VALUES;
    }

    @Override
    public <R> R accept(Visitor<R> visitor) {
      return visitor.plain(this);
    }
  }
}
