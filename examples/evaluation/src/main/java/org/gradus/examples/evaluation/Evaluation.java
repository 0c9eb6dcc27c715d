package org.gradus.examples.evaluation;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.gradus.examples.evaluation.Measurements.Maximum;

/** Compares every estimate with open measurements, prints the table, and writes it into a page. */
public final class Evaluation {

  static final String BEGIN = "<!-- The table is written by examples/evaluation. -->\n";
  static final String END = "<!-- End of the table. -->";

  private Evaluation() {}

  /**
   * Prints the table.
   *
   * @param args the page to write it into; none where it is only printed
   * @throws IOException if the page cannot be read or written
   */
  public static void main(String[] args) throws IOException {
    String table = table(comparisons());
    System.out.print(table);
    if (args.length > 0) {
      Path page = Path.of(args[0]);
      Files.writeString(page, with(Files.readString(page), table));
    }
  }

  /** Every estimate of every study, with each maximal heart rate that is known there. */
  static List<Comparison> comparisons() {
    List<Comparison> all = new ArrayList<>();
    for (Study study : Study.ALL) {
      for (Maximum maximum : Maximum.values()) {
        if (maximum == Maximum.MEASURED || study.withAge()) {
          all.addAll(Comparison.all(study, maximum));
        }
      }
    }
    return all;
  }

  /** The comparisons as a table of Markdown. */
  static String table(List<Comparison> comparisons) {
    return """
    | who | estimate | maximum | n | bias | spread | error | held by the interval | its width |
    |---|---|---|---|---|---|---|---|---|
    """
        + comparisons.stream().map(row -> row.row() + "\n").collect(Collectors.joining());
  }

  /** A page with the table in its place. */
  static String with(String page, String table) {
    int begin = page.indexOf(BEGIN);
    int end = page.indexOf(END);
    if (begin < 0 || end < begin) {
      throw new IllegalArgumentException("the page has no place for the table: " + BEGIN.strip());
    }
    return page.substring(0, begin + BEGIN.length()) + table + page.substring(end);
  }
}
