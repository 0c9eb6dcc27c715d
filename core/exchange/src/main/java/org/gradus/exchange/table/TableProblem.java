package org.gradus.exchange.table;

import static java.util.Objects.requireNonNull;

/**
 * Something in a table that cannot be read.
 *
 * @param line the line of the text, from 1; of a row over several lines the first
 * @param column the name of the column, or empty where the whole row is meant
 * @param message what is wrong and what to do
 */
public record TableProblem(int line, String column, String message) {
  public TableProblem {
    requireNonNull(column, "column");
    requireNonNull(message, "message");
  }

  /** In one line: {@code "line 7, column value: 700 bpm is no possible heart rate"}. */
  @Override
  public String toString() {
    return "line " + line + (column.isEmpty() ? "" : ", column " + column) + ": " + message;
  }
}
