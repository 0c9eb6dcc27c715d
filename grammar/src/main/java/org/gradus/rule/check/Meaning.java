package org.gradus.rule.check;

import org.gradus.unit.Quantity;

/** What the checker found out about a part of a tree, beyond its type. */
public sealed interface Meaning {

  /**
   * The value is in a slot.
   *
   * @param index the slot
   * @param demand what the slot holds
   */
  record Slot(int index, Demand demand) implements Meaning {}

  /**
   * The value is the difference of two slots.
   *
   * @param now the later value
   * @param earlier the earlier value
   */
  record Difference(Slot now, Slot earlier) implements Meaning {}

  /**
   * The value is read from a line.
   *
   * @param meanX slot of the mean x
   * @param meanY slot of the mean y
   * @param slope slot of the slope
   */
  record Line(Slot meanX, Slot meanY, Slot slope) implements Meaning {}

  /**
   * A figure that is fixed when the file is read.
   *
   * @param value the figure
   */
  record Fixed(Quantity value) implements Meaning {}

  /**
   * An answer to {@code is} that is fixed when the file is read.
   *
   * @param word the word that was chosen
   */
  record FixedWord(String word) implements Meaning {}

  /**
   * A definition is used.
   *
   * @param term the definition
   */
  record Use(Term term) implements Meaning {}

  /**
   * The value is read from a table.
   *
   * @param table the table
   */
  record Reading(Table table) implements Meaning {}

  /**
   * An equation is solved for one of its loads.
   *
   * @param body the equation
   * @param load the load that is sought
   */
  record Solution(Checked body, Slot load) implements Meaning {}

  /**
   * A function is called.
   *
   * @param function which
   */
  record Plain(Function function) implements Meaning {}
}
