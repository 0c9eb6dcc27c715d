package org.gradus.history;

import java.util.ArrayList;
import java.util.List;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.history.TestRecord.Entry;

/**
 * The sound beginning of a text that should be a record.
 *
 * @param record what is sound
 * @param length how many characters that is
 * @param damagedLine the first line that is not sound; 0 when all are
 * @param sum the sum of the last sound line
 */
record RecordLines(TestRecord record, int length, int damagedLine, String sum) {

  /** No test that a session takes in is as long. */
  static final int LONGEST = 256_000_000;

  /**
   * Reads as far as the lines are as they were written. A line that is, and yet says what no record
   * says, was not torn or damaged: it refuses the whole.
   *
   * @throws RecordRefused when not even the head is sound, or a sound line cannot be read
   */
  static RecordLines of(String name, String text) {
    if (text.length() > LONGEST) {
      throw new Unreadable("", "makes the record longer than " + LONGEST).inLine(name, 1);
    }
    int end = text.indexOf('\n');
    if (end < 0 || !Lines.isSound(text.substring(0, end), Lines.FIRST)) {
      throw Unreadable.damaged(name, 1);
    }
    String line = text.substring(0, end);
    Title title = title(name, line);
    List<Entry> entries = new ArrayList<>();
    int start = end + 1;
    while (start < text.length()) {
      end = text.indexOf('\n', start);
      // A line counts only when it was written to its end.
      String next = end < 0 ? "" : text.substring(start, end);
      if (!Lines.isSound(next, Lines.sum(line))) {
        TestRecord sound = new TestRecord(title, entries);
        return new RecordLines(sound, start, entries.size() + 2, Lines.sum(line));
      }
      line = next;
      entries.add(entry(name, line, entries.size() + 1));
      start = end + 1;
    }
    return new RecordLines(new TestRecord(title, entries), start, 0, Lines.sum(line));
  }

  private static Title title(String name, String line) {
    try {
      return Title.read(fields(line));
    } catch (Unreadable problem) {
      throw problem.inLine(name, 1);
    }
  }

  private static Entry entry(String name, String line, int number) {
    try {
      Fields fields = fields(line);
      if (fields.whole("n") != number) {
        throw fields.unreadable("n", "should be " + number);
      }
      return Entry.read(fields);
    } catch (Unreadable problem) {
      throw problem.inLine(name, number + 1);
    }
  }

  private static Fields fields(String line) {
    if (line.length() > Lines.LONGEST) {
      throw new Unreadable("", "is longer than " + Lines.LONGEST + " characters");
    }
    return Fields.read(line);
  }
}
