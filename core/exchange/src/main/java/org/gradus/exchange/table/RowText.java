package org.gradus.exchange.table;

import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;

/** Reads the rows of a table, and says which of them are none. */
final class RowText {

  private static final int MOST_CHARACTERS = 5_000_000;
  private static final String BYTE_ORDER_MARK = "\uFEFF";

  private final Consumer<TableProblem> problems;
  private final List<Optional<Column>> columns = new ArrayList<>();
  private final List<Row> rows = new ArrayList<>();

  RowText(Consumer<TableProblem> problems) {
    this.problems = problems;
  }

  List<Row> read(String csv) {
    if (csv.length() > MOST_CHARACTERS) {
      problem(1, "", "the table has more than " + MOST_CHARACTERS + " characters; no test has");
      return rows;
    }
    String text = csv.startsWith(BYTE_ORDER_MARK) ? csv.substring(1) : csv;
    int line = 1;
    try (CSVParser parser = new CSVParser(new StringReader(text), Csv.FORMAT)) {
      try {
        for (Iterator<CSVRecord> records = parser.iterator(); records.hasNext(); ) {
          take(records.next(), line);
          line = (int) parser.getCurrentLineNumber() + 1;
        }
      } catch (UncheckedIOException | IllegalStateException broken) {
        problem(line, "", "is no CSV: " + broken.getMessage() + "; close each quote");
      }
    } catch (IOException e) {
      problem(line, "", "is no CSV: " + e.getMessage());
    }
    if (columns.isEmpty()) {
      problem(1, "", "the table is empty; its first line names the columns");
    }
    return rows;
  }

  private void take(CSVRecord cells, int line) {
    if (columns.isEmpty()) {
      header(cells, line);
    } else if (cells.stream().anyMatch(cell -> !cell.isBlank())) {
      row(cells, line);
    }
  }

  private void header(CSVRecord cells, int line) {
    Set<String> seen = new HashSet<>();
    for (String cell : cells) {
      String word = cell.strip();
      Optional<Column> column = Column.named(word);
      if (column.isEmpty() || !seen.add(word)) {
        problem(
            line,
            word,
            column.isEmpty()
                ? "there is no such column; there are "
                    + String.join(
                        ", ", java.util.Arrays.stream(Column.values()).map(Column::word).toList())
                : "the column is there twice; leave one out");
      }
      columns.add(column);
    }
    if (!seen.contains(Column.ACTION.word())) {
      problem(line, Column.ACTION.word(), "the column is missing; columns are divided by commas");
    }
  }

  private void row(CSVRecord record, int line) {
    Map<Column, String> cells = new EnumMap<>(Column.class);
    for (int i = 0; i < record.size(); i++) {
      String cell = record.get(i).strip();
      if (i >= columns.size()) {
        if (!cell.isEmpty()) {
          problem(line, "", "has more cells than there are columns: " + shown(cell));
        }
      } else if (columns.get(i).isPresent() && !cell.isEmpty()) {
        cells.put(columns.get(i).get(), cell);
      }
    }
    String word = cells.getOrDefault(Column.ACTION, "");
    Optional<RowAction> action = RowAction.named(word);
    if (action.isPresent()) {
      rows.add(new Row(line, action.get(), cells));
    } else {
      problem(
          line,
          Column.ACTION.word(),
          (word.isEmpty() ? "an action is missing" : "there is no action " + shown(word))
              + "; there are "
              + RowAction.words());
    }
  }

  private void problem(int line, String column, String message) {
    problems.accept(new TableProblem(line, column, message));
  }

  private static String shown(String cell) {
    return cell.length() > 40 ? cell.substring(0, 40) + "..." : cell;
  }
}
