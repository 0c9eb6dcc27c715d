package org.gradus.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.history.TestRecord.Entry;

/**
 * The sound beginning of a text that should be a record.
 *
 * @param record what is sound
 * @param length how many characters that is
 * @param damagedLine the first line that is not sound; 0 when all are
 */
record RecordLines(TestRecord record, int length, int damagedLine) {

  /**
   * @throws JournalFailed when not even the head is sound
   */
  static RecordLines of(String name, String text) {
    int end = text.indexOf('\n');
    Optional<Fields> head = end < 0 ? Optional.empty() : Lines.open(text.substring(0, end));
    Title title = Title.read(head.orElseThrow(() -> new JournalFailed(Code.G609, name, "1")), name);
    List<Entry> entries = new ArrayList<>();
    int start = end + 1;
    while (start < text.length()) {
      end = text.indexOf('\n', start);
      // A line counts only when it was written to its end.
      Optional<Entry> entry =
          end < 0 ? Optional.empty() : entry(text.substring(start, end), entries.size() + 1);
      if (entry.isEmpty()) {
        return new RecordLines(new TestRecord(title, entries), start, entries.size() + 2);
      }
      entries.add(entry.get());
      start = end + 1;
    }
    return new RecordLines(new TestRecord(title, entries), start, 0);
  }

  private static Optional<Entry> entry(String line, int number) {
    try {
      return Lines.open(line).map(Entry::read).filter(entry -> entry.number() == number);
    } catch (JournalFailed unreadable) {
      return Optional.empty();
    }
  }
}
