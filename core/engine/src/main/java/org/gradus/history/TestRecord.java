package org.gradus.history;

import static java.util.Objects.requireNonNull;

import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Hindsight;
import org.gradus.session.Ledger;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Verdict;

/**
 * The record of a test: its head, then every event with the answer of its moment.
 *
 * <pre>{@code
 * TestRecord record = TestRecord.of(session, Optional.empty());
 * Files.writeString(file, record.text());
 * List<Difference> none = TestRecord.parse("walk.jsonl", text).verify(library);
 * }</pre>
 *
 * <p>Each line carries a check sum (SHA-256) over itself and the sum of the line before, and the
 * event that ended the test says so. What this shows, and what it does not:
 *
 * <ul>
 *   <li>A line that was damaged, and one that was taken out, put in or exchanged between others, is
 *       found by {@link #parse}.
 *   <li>Lines cut off the end leave a record of which {@link #isOver} is false; of a test that was
 *       over, the cut is found that way. (If something was told after the end, a cut behind the end
 *       is not.)
 *   <li>A check sum proves nothing against somebody who changes a record on purpose and works out
 *       the sums anew: there is no secret in it. {@link #verify} then still finds answers that the
 *       files do not give and refuses events that cannot have happened; readings that were made up
 *       and are possible, it cannot find.
 *   <li>Who keeps {@link #sum} where the record cannot be changed along with it, finds any change.
 * </ul>
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
   * @param over whether the test was over with it
   */
  public record Entry(
      int number,
      Event event,
      String answer,
      String rule,
      List<Hindsight> hindsight,
      boolean over) {

    public Entry {
      requireNonNull(answer, "answer");
      requireNonNull(event, "event");
      requireNonNull(hindsight, "hindsight");
      requireNonNull(rule, "rule");
      hindsight = List.copyOf(hindsight);
    }

    static Entry of(int number, Event event, Decision answer) {
      return new Entry(
          number,
          event,
          answer.verdict().toString(),
          answer.because().map(why -> why.rule()).orElse(""),
          answer.hindsight(),
          answer.phase() == Phase.ENDED);
    }

    Map<String, Object> fields() {
      Map<String, Object> fields =
          Lines.map(
              "n", number, "event", EventForm.EVENT.write(event), "answer", answer, "rule", rule);
      if (!hindsight.isEmpty()) {
        fields.put("hindsight", hindsight.stream().map(Entry::write).toList());
      }
      if (over) {
        fields.put("over", true);
      }
      return fields;
    }

    private static Map<String, Object> write(Hindsight one) {
      return Lines.map("event", one.event(), "then", one.then(), "now", one.now());
    }

    static Entry read(Fields fields) {
      fields.only("n", "event", "answer", "rule", "hindsight", "over", Lines.SUM);
      return new Entry(
          fields.whole("n"),
          EventForm.EVENT.read(fields, "event"),
          fields.text("answer"),
          fields.text("rule"),
          fields.has("hindsight")
              ? fields.list("hindsight").stream().map(Entry::hindsight).toList()
              : List.of(),
          fields.has("over") && fields.truth("over"));
    }

    private static Hindsight hindsight(Fields fields) {
      fields.only("event", "then", "now");
      return new Hindsight(fields.whole("event"), fields.text("then"), fields.text("now"));
    }

    // In other words for people the same verdict may be told otherwise: a stop tells what to do.
    private boolean agreesButForTexts(Entry now, Verdict verdict) {
      boolean worded =
          switch (verdict.kind()) {
            case STOP, NOT_RECOVERED -> true;
            case READY, DEFER, CONTINUE, MEASURE, HOLD, CHANGE, ADVANCE, FINISH, END, OVER -> false;
          };
      return (worded ? answer.startsWith(verdict.word()) : answer.equals(now.answer))
          && rule.equals(now.rule)
          && events(hindsight).equals(events(now.hindsight));
    }

    private static List<Integer> events(List<Hindsight> hindsight) {
      return hindsight.stream().map(Hindsight::event).toList();
    }

    private String said() {
      String said = rule.isEmpty() ? answer : answer + " (" + rule + ")";
      return said + (hindsight.isEmpty() ? "" : "; " + hindsight) + (over ? "; over" : "");
    }
  }

  /**
   * Something that comes out otherwise when a record is run again.
   *
   * @param number the number of the event
   * @param recorded what was answered, with its rule
   * @param now what is answered now
   */
  public record Difference(int number, String recorded, String now) {
    public Difference {
      requireNonNull(now, "now");
      requireNonNull(recorded, "recorded");
    }
  }

  public TestRecord {
    requireNonNull(entries, "entries");
    requireNonNull(title, "title");
    entries = List.copyOf(entries);
  }

  /** The record of a session as it stands. */
  public static TestRecord of(Session session, Optional<String> identity) {
    Title title = Title.of(session.protocol(), session.outcome().person(), identity);
    return new TestRecord(title, entries(session.protocol(), title, session.events()));
  }

  /** The same with the moment at which the session was opened; see {@link Title#begun}. */
  public TestRecord begun(ZonedDateTime moment) {
    return new TestRecord(title.begun(moment), entries);
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
    return lines().stream().map(line -> line + "\n").collect(Collectors.joining());
  }

  private List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(Lines.sealed(title.write(), Lines.FIRST));
    for (Entry entry : entries) {
      lines.add(Lines.sealed(entry.fields(), Lines.sum(lines.get(lines.size() - 1))));
    }
    return lines;
  }

  /**
   * The check sum that the last line carries. It depends on every character of the record: who
   * keeps it elsewhere finds out whether the record was changed since.
   *
   * @return a SHA-256 of 64 hexadecimal digits
   */
  public String sum() {
    List<String> lines = lines();
    return Lines.sum(lines.get(lines.size() - 1));
  }

  /**
   * Whether the test was over with the last event. A record of which this is not so was taken while
   * the test went on, belongs to a test that was cut off, or lacks lines at its end.
   */
  public boolean isOver() {
    return !entries.isEmpty() && entries.get(entries.size() - 1).over();
  }

  /**
   * Reads a record.
   *
   * @param name the name to show in messages
   * @throws RecordRefused when a line is damaged, missing or out of order (G609), or says what no
   *     record says (G615, with the line and the field)
   */
  public static TestRecord parse(String name, String text) {
    requireNonNull(name, "name");
    RecordLines lines = RecordLines.of(name, text);
    if (lines.damagedLine() > 0) {
      throw Unreadable.damaged(name, lines.damagedLine());
    }
    return lines.record();
  }

  /**
   * Runs the events again with a library in which the protocol means the same. A record that
   * matches gives no differences.
   *
   * @throws RecordRefused when the protocol means something else in the library (G608), with the
   *     items that differ; and when an event cannot have happened (G620), such as a verdict that
   *     was followed and neither recommended nor offered, with its number
   */
  public List<Difference> verify(Library library) {
    List<Difference> differences = new ArrayList<>();
    Protocol protocol = title.exactly(library);
    boolean sameTexts = title.hasTexts(protocol);
    Session.retell(protocol, title.person(), events(), comparing(sameTexts, differences::add));
    return differences;
  }

  /**
   * Runs the events again with other files, and says what would have been answered otherwise. What
   * was followed stands, also where something else would have been recommended. {@link
   * #settingsPassedOver} says which settings of the record could not be used.
   *
   * @throws org.gradus.diagnostic.ReadingRefused when an event has no meaning with these files
   */
  public List<Difference> rerun(Library library) {
    List<Difference> differences = new ArrayList<>();
    Session.rerun(
        title.among(library), title.person(), events(), comparing(true, differences::add));
    return differences;
  }

  /**
   * The settings of the record that the protocol of a library does not have, so that {@link #rerun}
   * passes over them, with their values as they are written; empty where it has all of them.
   *
   * @throws org.gradus.diagnostic.NotFound when the library has no protocol of the record's id
   */
  public Map<String, String> settingsPassedOver(Library library) {
    Map<String, String> passedOver = new LinkedHashMap<>(title.settings());
    passedOver.keySet().removeAll(library.protocol(title.protocol()).settings().keySet());
    return Collections.unmodifiableMap(passedOver);
  }

  private List<Event> events() {
    return entries.stream().map(Entry::event).toList();
  }

  private Ledger comparing(boolean sameTexts, Consumer<Difference> different) {
    return (number, event, answer) -> {
      Entry recorded = entries.get(number - 1);
      Entry now = Entry.of(number, event, answer);
      boolean agrees =
          sameTexts
              ? recorded.said().equals(now.said())
              : recorded.agreesButForTexts(now, answer.verdict());
      if (!agrees) {
        different.accept(new Difference(number, recorded.said(), now.said()));
      }
    };
  }

  /**
   * The session of the record, to go on with; its further events are kept by a ledger.
   *
   * @throws RecordRefused when the protocol means something else in the library, or when an event
   *     cannot have happened, as in {@link #verify}
   */
  public Session resume(Library library, Ledger ledger) {
    requireNonNull(ledger, "ledger");
    return Session.resume(title.exactly(library), title.person(), events(), ledger);
  }

  /** The same without the person's identity; when the session was opened stays in it. */
  public TestRecord withoutIdentity() {
    return new TestRecord(title.withoutIdentity(), entries);
  }
}
