package org.gradus.history;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Hindsight;
import org.gradus.session.Ledger;
import org.gradus.session.Session;

/**
 * The record of a test: its head, then every event with the answer of its moment.
 *
 * <pre>{@code
 * TestRecord record = TestRecord.of(session, Optional.empty());
 * Files.writeString(file, record.text());
 * List<Difference> none = TestRecord.parse("walk.jsonl", text).verify(library);
 * }</pre>
 *
 * @param title the head
 * @param entries the events in order
 */
public record TestRecord(Title title, List<Entry> entries) {

  /**
   * An event and what was answered.
   *
   * @param number its number, from 1
   * @param event what was told
   * @param answer the verdict in words: {@code "HOLD until 4:00"}
   * @param rule the id of the rule behind it, or empty
   * @param hindsight verdicts followed before that would have been others, had it been known then
   */
  public record Entry(
      int number, Event event, String answer, String rule, List<Hindsight> hindsight) {

    public Entry {
      hindsight = List.copyOf(hindsight);
    }

    static Entry of(int number, Event event, Decision answer) {
      return new Entry(
          number,
          event,
          answer.verdict().toString(),
          answer.because().map(why -> why.rule()).orElse(""),
          answer.hindsight());
    }

    String line() {
      Map<String, Object> fields =
          Lines.map("n", number, "event", EventText.write(event), "answer", answer, "rule", rule);
      if (!hindsight.isEmpty()) {
        fields.put("hindsight", hindsight.stream().map(Entry::write).toList());
      }
      return Lines.sealed(fields);
    }

    private static Map<String, Object> write(Hindsight one) {
      return Lines.map("event", one.event(), "then", one.then(), "now", one.now());
    }

    static Entry read(Fields fields) {
      return new Entry(
          fields.whole("n"),
          EventText.read(fields.fields("event")),
          fields.text("answer"),
          fields.text("rule"),
          fields.has("hindsight")
              ? fields.list("hindsight").stream().map(Entry::hindsight).toList()
              : List.of());
    }

    private static Hindsight hindsight(Fields fields) {
      return new Hindsight(fields.whole("event"), fields.text("then"), fields.text("now"));
    }

    private String said() {
      String said = rule.isEmpty() ? answer : answer + " (" + rule + ")";
      return hindsight.isEmpty() ? said : said + "; " + hindsight;
    }
  }

  /**
   * Something that comes out otherwise when a record is run again.
   *
   * @param number the number of the event
   * @param recorded what was answered, with its rule
   * @param now what is answered now
   */
  public record Difference(int number, String recorded, String now) {}

  public TestRecord {
    entries = List.copyOf(entries);
  }

  /** The record of a session as it stands. */
  public static TestRecord of(Session session, Optional<String> identity) {
    Title title = Title.of(session.protocol(), session.outcome().person(), identity);
    return new TestRecord(title, entries(session.protocol(), title, session.events()));
  }

  // Told again from the start, each event is answered as it was.
  private static List<Entry> entries(Protocol protocol, Title title, List<Event> events) {
    List<Entry> entries = new ArrayList<>();
    Session.retell(
        protocol,
        title.person(),
        events,
        (number, event, answer) -> entries.add(Entry.of(number, event, answer)));
    return entries;
  }

  /** The record as JSON Lines; each line is valid YAML 1.2 too. */
  public String text() {
    return Lines.sealed(title.write())
        + "\n"
        + entries.stream().map(entry -> entry.line() + "\n").collect(Collectors.joining());
  }

  /**
   * Reads a record.
   *
   * @param name the name to show in messages
   * @throws JournalFailed when a line is damaged, missing or out of order
   */
  public static TestRecord parse(String name, String text) {
    RecordLines lines = RecordLines.of(name, text);
    if (lines.damagedLine() > 0) {
      throw new JournalFailed(Code.G609, name, Integer.toString(lines.damagedLine()));
    }
    return lines.record();
  }

  /**
   * Runs the events again with the files they were recorded with. A record that matches gives no
   * differences.
   *
   * @throws org.gradus.diagnostic.VerdictRefused when the library holds other files
   * @throws org.gradus.diagnostic.RecordRefused when an event cannot have happened, such as a
   *     verdict that was followed and neither recommended nor offered; the message names its number
   */
  public List<Difference> verify(Library library) {
    List<Difference> differences = new ArrayList<>();
    Session.retell(title.exactly(library), title.person(), events(), comparing(differences::add));
    return differences;
  }

  /**
   * Runs the events again with other files, and says what would have been answered otherwise. What
   * was followed stands, also where something else would have been recommended.
   *
   * @throws org.gradus.diagnostic.ReadingRefused when an event has no meaning with these files
   */
  public List<Difference> rerun(Library library) {
    List<Difference> differences = new ArrayList<>();
    Session.rerun(title.among(library), title.person(), events(), comparing(differences::add));
    return differences;
  }

  private List<Event> events() {
    return entries.stream().map(Entry::event).toList();
  }

  private Ledger comparing(Consumer<Difference> different) {
    return (number, event, answer) -> {
      Entry recorded = entries.get(number - 1);
      Entry now = Entry.of(number, event, answer);
      if (!recorded.said().equals(now.said())) {
        different.accept(new Difference(number, recorded.said(), now.said()));
      }
    };
  }

  /**
   * The session of the record, to go on with; its further events are kept by a ledger.
   *
   * @throws org.gradus.diagnostic.VerdictRefused when the library holds other files
   * @throws org.gradus.diagnostic.RecordRefused when an event cannot have happened, as in {@link
   *     #verify}
   */
  public Session resume(Library library, Ledger ledger) {
    return Session.resume(title.exactly(library), title.person(), events(), ledger);
  }

  /** The same without the person's identity. */
  public TestRecord withoutIdentity() {
    return new TestRecord(title.withoutIdentity(), entries);
  }
}
