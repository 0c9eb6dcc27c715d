package org.gradus.exchange.table;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Setting;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.gradus.unit.Unit;

/**
 * A whole test as one table: the protocol with its settings, the person as far as rules need to
 * know, then what was told and done, in order.
 *
 * <p>The first line names the columns; those that are not needed may be left out, and their order
 * is free. A row says by its {@code action} what it is:
 *
 * <ul>
 *   <li>{@code protocol} (name: its id), {@code setting} and {@code person} (name and value) stand
 *       above the others.
 *   <li>{@code read} tells a reading or answer. Rows of one event have the same number; without
 *       numbers, rows that follow each other with the same times are one event.
 *   <li>{@code report}, {@code withdraw}, {@code amend}, {@code reject}, {@code load}, {@code done}
 *       and {@code abandon} are the other things that can be told.
 *   <li>{@code ready}, {@code defer}, {@code hold}, {@code advance}, {@code finish}, {@code stop},
 *       {@code end} and {@code not_recovered} are what the tester did. Where {@code how} is empty,
 *       as on paper, it counts as followed when it was recommended or offered then, and else as
 *       overridden, for which a reason is needed.
 * </ul>
 *
 * <p>Times are written as on a stopwatch, {@code 3:00}. No name of a person stands in a table
 * unless a tester has written it into a reason.
 */
public final class TestTable {

  private TestTable() {}

  /** The whole test as CSV; {@link #read} gives the same test again. */
  public static String write(Session session) {
    List<Map<Column, String>> rows = new ArrayList<>(head(session.protocol()));
    rows.addAll(person(session.outcome().person()));
    List<Event> events = session.events();
    for (int i = 0; i < events.size(); i++) {
      rows.addAll(events.get(i).accept(new EventRows(i + 1)));
    }
    List<List<String>> cells = new ArrayList<>();
    cells.add(Arrays.stream(Column.values()).map(Column::word).toList());
    rows.forEach(
        row ->
            cells.add(
                Arrays.stream(Column.values())
                    .map(column -> row.getOrDefault(column, ""))
                    .toList()));
    return Csv.write(cells);
  }

  private static List<Map<Column, String>> head(Protocol protocol) {
    List<Map<Column, String>> rows = new ArrayList<>();
    Map<Column, String> first = row(RowAction.PROTOCOL, protocol.id());
    first.put(Column.VALUE, protocol.heading().version());
    rows.add(first);
    for (Setting setting : protocol.settings().values()) {
      Map<Column, String> row = row(RowAction.SETTING, setting.name());
      if (setting.value() instanceof Setting.Figure figure) {
        EventRows.put(row, figure.quantity());
      } else {
        row.put(Column.VALUE, Cells.text(setting.value().toString()));
      }
      rows.add(row);
    }
    return rows;
  }

  private static List<Map<Column, String>> person(Person person) {
    List<Map<Column, String>> rows = new ArrayList<>();
    for (Attribute attribute : Attribute.values()) {
      person
          .value(attribute)
          .ifPresent(
              value -> {
                Map<Column, String> row = row(RowAction.PERSON, attribute.word());
                attribute
                    .type()
                    .match(
                        measure -> {
                          EventRows.put(row, value);
                          return row;
                        },
                        condition -> row.put(Column.VALUE, Cells.truth(value.amount() == 1)),
                        choice ->
                            row.put(Column.VALUE, choice.options().get((int) value.in(Unit.ONE))));
                rows.add(row);
              });
    }
    return rows;
  }

  private static Map<Column, String> row(RowAction action, String name) {
    Map<Column, String> row = new EnumMap<>(Column.class);
    row.put(Column.ACTION, action.word());
    row.put(Column.NAME, Cells.text(name));
    return row;
  }

  /**
   * Reads a test and tells it to a session, row by row. Every row is tried, so that all problems
   * are found at once; a row that follows from one with a problem may then have one too.
   *
   * @param csv the table
   * @param library the library that has its protocol
   * @return the session as it stands after the last row
   * @throws TableRefused with every problem, by line and column; nothing is imported then
   */
  public static Session read(String csv, Library library) {
    requireNonNull(library, "library");
    return new TestTableReader(csv, library).read();
  }
}
