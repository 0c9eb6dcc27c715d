package org.gradus.exchange.table;

import java.util.Map;

/**
 * A row that was read.
 *
 * @param line the line it begins in
 * @param action what it says
 * @param cells its cells, without those that are empty
 */
record Row(int line, RowAction action, Map<Column, String> cells) {

  String cell(Column column) {
    return cells.getOrDefault(column, "");
  }

  boolean has(Column column) {
    return cells.containsKey(column);
  }

  /** Whether it goes on with the event of the row before. */
  boolean continues(Row before) {
    boolean sameNumber = cell(Column.NUMBER).equals(before.cell(Column.NUMBER));
    boolean sameEvent =
        has(Column.NUMBER)
            || (cell(Column.AT).equals(before.cell(Column.AT))
                && cell(Column.TAKEN).equals(before.cell(Column.TAKEN)));
    if (action == RowAction.WITH) {
      return true;
    }
    return sameNumber && sameEvent && action == before.action && action == RowAction.READ;
  }
}
