package org.gradus.report;

import java.util.List;

/** A piece of a report, in words; how it looks is the business of a page. */
sealed interface Block {

  /** A sentence or a few. */
  record Paragraph(String text) implements Block {}

  /** What must not be overlooked. */
  record Warning(String text) implements Block {}

  /** The answer that everything else is about. */
  record Answer(String value, String around) implements Block {}

  /** Sentences that stand beside each other. */
  record Items(List<String> items) implements Block {
    public Items {
      items = List.copyOf(items);
    }
  }

  /** Names with values. */
  record Facts(List<Fact> facts) implements Block {
    public Facts {
      facts = List.copyOf(facts);
    }
  }

  /** A name with its value. */
  record Fact(String name, String value) {}

  /**
   * A table.
   *
   * @param caption what it shows
   * @param heads the heads of its columns; the first cell of a row is its head
   * @param rows its rows
   */
  record Table(String caption, List<String> heads, List<List<String>> rows) implements Block {
    public Table {
      heads = List.copyOf(heads);
      rows = List.copyOf(rows);
    }
  }

  /** A drawing of heart rate against uptake. */
  record Picture(Chart chart) implements Block {}
}
