package org.gradus.exchange.table;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Writes rows as RFC 4180 says. */
final class Csv {

  static final CSVFormat FORMAT = CSVFormat.RFC4180;

  private Csv() {}

  static String write(List<List<String>> rows) {
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, FORMAT)) {
      for (List<String> row : rows) {
        printer.printRecord(row);
      }
    } catch (IOException e) {
      throw new UncheckedIOException("a text in memory cannot be written", e);
    }
    return text.toString();
  }
}
