package org.gradus.history;

import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.RecordRefused;

/** A line of a record that is not what a record says; its reader tells which line it is. */
final class Unreadable extends RuntimeException {

  private static final long serialVersionUID = 1L;
  private static final int LONGEST_SHOWN = 80;

  private final String field;
  private final String problem;

  /**
   * A field that cannot be read.
   *
   * @param field the way to it, such as {@code event.verdict.until}; empty: the line itself
   * @param problem what is wrong with it, to be read after it
   */
  Unreadable(String field, String problem) {
    super(field + " " + problem);
    this.field = field;
    this.problem = problem;
  }

  /** The refusal of the record. */
  RecordRefused inLine(String record, int line) {
    return new RecordRefused(
        Code.G615,
        record,
        Integer.toString(line),
        field.isEmpty() ? "the line" : field,
        problem,
        instead(line));
  }

  /** The refusal of a record in which a line is not as it was written. */
  static RecordRefused damaged(String record, int line) {
    return new RecordRefused(Code.G609, record, Integer.toString(line), instead(line));
  }

  // Without its first line nothing of a record can be read.
  private static String instead(int line) {
    return line == 1 ? "use another copy of the record" : "use the lines before it";
  }

  /** A value as a message shows it: no more than its beginning. */
  static String shown(Object value) {
    String text = Json.write(value);
    return text.length() <= LONGEST_SHOWN ? text : text.substring(0, LONGEST_SHOWN) + "...";
  }
}
