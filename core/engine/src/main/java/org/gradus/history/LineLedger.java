package org.gradus.history;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.history.TestRecord.Entry;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;

/**
 * Writes a record line by line to wherever a host keeps it: a table, a topic, the state of a stream
 * processor. All lines together, each with a line break behind it, are the text that {@link
 * TestRecord#parse} reads.
 *
 * <pre>{@code
 * List<String> lines = new ArrayList<>();
 * Session session = Session.open(walk, person, LineLedger.begin(walk, person, Optional.empty(), lines::add));
 * ...
 * // later, from the lines alone
 * String text = String.join("\n", lines) + "\n";
 * String last = lines.get(lines.size() - 1);
 * Session again = TestRecord.parse("walk", text).resume(library, LineLedger.after(last, lines::add));
 * }</pre>
 *
 * <p>It belongs to one session and, like the session, serves any number of threads in turn.
 */
public final class LineLedger implements Ledger {

  private static final int MOST_SHOWN = 60;

  private final Consumer<String> lines;
  private String sum;

  private LineLedger(String sum, Consumer<String> lines) {
    this.sum = sum;
    this.lines = requireNonNull(lines, "lines");
  }

  /**
   * Begins a record and hands over its first line, which says what the protocol means.
   *
   * @param identity whose test it is, if the record is to say so
   * @param lines keeps a line, which has no line break; what it throws passes through, and the
   *     event has then not happened
   * @throws org.gradus.diagnostic.ReadingRefused when the identity is longer than {@link
   *     Title#LONGEST_IDENTITY} characters
   */
  public static LineLedger begin(
      Protocol protocol, Person person, Optional<String> identity, Consumer<String> lines) {
    return begin(Title.of(protocol, person, identity), lines);
  }

  /**
   * Begins a record with a head of the host's making, such as one that says when the session was
   * opened, and hands over its first line.
   *
   * @param lines keeps a line, as in the other {@code begin}
   */
  public static LineLedger begin(Title title, Consumer<String> lines) {
    requireNonNull(title, "title");
    LineLedger ledger = new LineLedger(Lines.FIRST, lines);
    ledger.append(title.write(), line -> Title.read(line).write());
    return ledger;
  }

  /**
   * Goes on with a record.
   *
   * @param last the last line of the record so far, without its line break
   * @param lines keeps a line, as in {@link #begin}
   * @throws ValueRefused when the text is no line of a record
   */
  public static LineLedger after(String last, Consumer<String> lines) {
    requireNonNull(last, "last");
    requireNonNull(lines, "lines");
    return new LineLedger(
        Lines.sumOf(last)
            .orElseThrow(
                () ->
                    new ValueRefused(
                        "the last line of a record",
                        beginning(last),
                        "hand over the whole line as it was kept; it ends with its sum")),
        lines);
  }

  /**
   * Hands over the line of an event.
   *
   * @throws JournalFailed when the line could not be read back (G607); nothing is then handed over
   */
  @Override
  public void keep(int number, Event event, Decision answer) {
    append(Entry.of(number, event, answer).fields(), line -> Entry.read(line).fields());
  }

  private static String beginning(String line) {
    return '"' + (line.length() > MOST_SHOWN ? line.substring(0, MOST_SHOWN) + "..." : line) + '"';
  }

  private void append(Map<String, Object> fields, Journal.Reader reader) {
    try {
      Journal.refuseUnlessReadBack(fields, reader);
    } catch (IOException unreadable) {
      String why = String.valueOf(unreadable.getMessage());
      throw new JournalFailed(Code.G607, "of these lines", why, unreadable);
    }
    String line = Lines.sealed(fields, sum);
    lines.accept(line);
    sum = Lines.sum(line);
  }
}
