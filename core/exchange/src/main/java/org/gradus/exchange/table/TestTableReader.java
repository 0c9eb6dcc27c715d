package org.gradus.exchange.table;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.library.Library;
import org.gradus.protocol.Attribute;
import org.gradus.protocol.Person;
import org.gradus.protocol.Posture;
import org.gradus.protocol.Protocol;
import org.gradus.protocol.Question;
import org.gradus.protocol.Setting;
import org.gradus.protocol.Signal;
import org.gradus.session.Decision;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Type;
import org.gradus.unit.Unit;

/** Reads a test table and tells it to a session, event by event. */
final class TestTableReader {

  private static final int MOST_PROBLEMS = 100;

  private final String csv;
  private final Library library;
  private final List<TableProblem> problems = new ArrayList<>();
  // The numbers of the table, and those that the session has given.
  private final Map<String, Integer> numbers = new HashMap<>();

  TestTableReader(String csv, Library library) {
    this.csv = csv;
    this.library = library;
  }

  Session read() {
    List<Row> rows = new RowText(this::add).read(csv);
    List<Row> head = rows.stream().filter(row -> row.action().isHead()).toList();
    Optional<Protocol> protocol = protocol(head);
    Person person = person(head);
    if (protocol.isEmpty()) {
      throw new TableRefused(problems);
    }
    Session session;
    try {
      session = Session.open(protocol.get(), person);
    } catch (GradusException refused) {
      add(new TableProblem(1, Column.ACTION.word(), message(refused)));
      throw new TableRefused(problems);
    }
    for (List<Row> event : events(rows)) {
      tell(session, event);
    }
    if (!problems.isEmpty()) {
      throw new TableRefused(problems);
    }
    return session;
  }

  private void add(TableProblem problem) {
    if (problems.size() < MOST_PROBLEMS) {
      problems.add(problem);
    }
  }

  private static String message(GradusException refused) {
    return String.valueOf(refused.getMessage());
  }

  private void trying(Row row, Column column, Runnable step) {
    try {
      step.run();
    } catch (RowProblem wrong) {
      add(wrong.problem());
    } catch (GradusException refused) {
      Column where = refused.code() == Code.G501 ? Column.UNIT : column;
      add(new TableProblem(row.line(), where.word(), message(refused)));
    }
  }

  private Optional<Protocol> protocol(List<Row> head) {
    List<Row> named = head.stream().filter(row -> row.action() == RowAction.PROTOCOL).toList();
    if (named.size() != 1) {
      add(
          new TableProblem(
              named.isEmpty() ? 1 : named.get(1).line(),
              Column.ACTION.word(),
              "a table has one row protocol, with the id of the protocol as its name; found "
                  + named.size()));
      return Optional.empty();
    }
    Row row = named.get(0);
    List<Protocol> found = new ArrayList<>();
    trying(row, Column.NAME, () -> found.add(library.protocol(name(row))));
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Protocol protocol = found.get(0);
    String version = protocol.heading().version();
    if (row.has(Column.VALUE) && !row.cell(Column.VALUE).equals(version)) {
      add(
          new TableProblem(
              row.line(),
              Column.VALUE.word(),
              "the table is of version "
                  + row.cell(Column.VALUE)
                  + ", the library has "
                  + version
                  + "; use the files it was made with, or leave the version out"));
    }
    for (Row setting : head) {
      if (setting.action() == RowAction.SETTING) {
        Protocol before = protocol;
        List<Protocol> after = new ArrayList<>();
        trying(setting, Column.VALUE, () -> after.add(with(before, setting)));
        protocol = after.isEmpty() ? before : after.get(0);
      }
    }
    return Optional.of(protocol);
  }

  private static Protocol with(Protocol protocol, Row row) {
    String name = name(row);
    Setting setting = protocol.settings().get(name);
    if (setting != null && setting.value() instanceof Setting.Word) {
      String word = text(row, Column.VALUE);
      return setting.value().toString().equals(word) ? protocol : protocol.with(name, word);
    }
    Quantity value = quantity(row, Column.VALUE);
    boolean same =
        setting != null
            && setting.value() instanceof Setting.Figure figure
            && figure.quantity().equals(value);
    return same ? protocol : protocol.with(name, value);
  }

  private Person person(List<Row> head) {
    Person.Builder builder = Person.builder();
    for (Row row : head) {
      if (row.action() == RowAction.PERSON) {
        trying(row, Column.VALUE, () -> give(builder, row));
      }
    }
    return builder.build();
  }

  private static void give(Person.Builder builder, Row row) {
    Attribute attribute =
        Attribute.named(name(row))
            .orElseThrow(
                () ->
                    new RowProblem(
                        row,
                        Column.NAME,
                        "of a person there is no "
                            + name(row)
                            + "; leave the row out, or name one of "
                            + String.join(
                                ", ",
                                Arrays.stream(Attribute.values()).map(Attribute::word).toList())));
    switch (attribute) {
      case AGE -> builder.age(age(row));
      case SEX -> builder.sex(isOneOf(row, "male", "female") ? Person.Sex.MALE : Person.Sex.FEMALE);
      case MASS -> builder.mass(quantity(row, Column.VALUE));
      case HEIGHT -> builder.height(quantity(row, Column.VALUE));
      case LOWERS_HEART_RATE -> builder.lowersHeartRate(isOneOf(row, "yes", "no"));
      case CLEARED -> builder.cleared(isOneOf(row, "yes", "no"));
      case MEASURED_MAX_HEART_RATE -> builder.measuredMaxHeartRate(quantity(row, Column.VALUE));
    }
  }

  private static int age(Row row) {
    Quantity age = quantity(row, Column.VALUE);
    if ((age.unit() != Unit.YEAR && age.unit() != Unit.ONE) || age.amount() % 1 != 0) {
      throw new RowProblem(row, Column.VALUE, "an age is in whole years, not " + age);
    }
    return (int) age.amount();
  }

  private static boolean isOneOf(Row row, String one, String other) {
    String word = text(row, Column.VALUE);
    if (!word.equals(one) && !word.equals(other)) {
      throw new RowProblem(row, Column.VALUE, "is " + word + "; write " + one + " or " + other);
    }
    return word.equals(one);
  }

  private static List<List<Row>> events(List<Row> rows) {
    List<List<Row>> events = new ArrayList<>();
    Row before = null;
    for (Row row : rows) {
      if (row.action().isHead()) {
        continue;
      }
      if (before != null && row.continues(before)) {
        events.get(events.size() - 1).add(row);
      } else {
        events.add(new ArrayList<>(List.of(row)));
      }
      before = row;
    }
    return events;
  }

  private void tell(Session session, List<Row> event) {
    Row row = event.get(0);
    trying(
        row,
        Column.VALUE,
        () -> {
          tell(session, event, row);
          if (row.has(Column.NUMBER)) {
            numbers.put(row.cell(Column.NUMBER), session.events().size());
          }
        });
  }

  private void tell(Session session, List<Row> event, Row row) {
    Duration at = time(row, Column.AT);
    switch (row.action()) {
      case READ ->
          session.recordTaken(
              at,
              row.has(Column.TAKEN) ? time(row, Column.TAKEN) : at,
              event.stream()
                  .map(each -> reading(session.protocol(), each))
                  .toArray(Reading[]::new));
      case REPORT -> {
        if (row.has(Column.VALUE)) {
          session.report(at, name(row), whole(row, Column.VALUE));
        } else {
          session.report(at, name(row));
        }
      }
      case WITHDRAW -> session.withdraw(at, name(row), reason(row));
      case AMEND -> session.amend(at, of(row), reading(session.protocol(), row), reason(row));
      case REJECT -> session.reject(at, of(row), name(row), reason(row));
      case LOAD -> session.loadSet(at, load(row));
      case DONE -> session.done(at, row.has(Column.TAKEN) ? time(row, Column.TAKEN) : at);
      case ABANDON -> session.abandon(at, reason(row));
      case WITH, PROTOCOL, SETTING, PERSON ->
          throw new RowProblem(
              row, Column.ACTION, row.action().word() + " stands below the row of a verdict only");
      case READY, DEFER, CONTINUE, HOLD, CHANGE, ADVANCE, FINISH, STOP, END, NOT_RECOVERED ->
          decided(session, at, event);
    }
  }

  private static void decided(Session session, Duration at, List<Row> event) {
    Row row = event.get(0);
    String how = row.cell(Column.HOW);
    if (!how.isEmpty() && !how.equals(EventRows.FOLLOWED) && !how.equals(EventRows.OVERRIDDEN)) {
      throw new RowProblem(
          row, Column.HOW, "is " + how + "; write followed or overridden, or leave it empty");
    }
    if (!how.equals(EventRows.OVERRIDDEN) && followed(session, at, row)) {
      return;
    }
    if (how.equals(EventRows.FOLLOWED) || !row.has(Column.REASON)) {
      throw new RowProblem(
          row,
          how.isEmpty() ? Column.REASON : Column.HOW,
          row.action().word()
              + " was neither recommended nor offered; recommended was "
              + session.decide(at)
              + (how.isEmpty() ? "; give the reason why it was done" : ""));
    }
    List<Loading> loads =
        event.subList(1, event.size()).stream().map(TestTableReader::load).toList();
    session.override(at, verdict(row, loads), reason(row));
  }

  private static boolean followed(Session session, Duration at, Row row) {
    Decision decision = session.decide(at);
    if (isMeant(decision.verdict(), row)) {
      session.follow(decision);
      return true;
    }
    for (Decision.Offer offer : decision.offers()) {
      if (isMeant(offer.verdict(), row)) {
        session.follow(decision, offer);
        return true;
      }
    }
    return false;
  }

  private static boolean isMeant(Verdict verdict, Row row) {
    return verdict.kind().name().equals(row.action().name())
        && switch (verdict.kind()) {
          case READY -> isNamed(((Verdict.Ready) verdict).stage(), row);
          case CHANGE -> isNamed(((Verdict.Change) verdict).stage(), row);
          case ADVANCE -> isNamed(((Verdict.Advance) verdict).stage(), row);
          case HOLD ->
              !row.has(Column.UNTIL)
                  || ((Verdict.Hold) verdict).until().equals(time(row, Column.UNTIL));
          case DEFER, MEASURE, FINISH, STOP, END, NOT_RECOVERED -> true;
          // They change nothing when they are followed.
          case CONTINUE, OVER -> false;
        };
  }

  private static boolean isNamed(String stage, Row row) {
    return !row.has(Column.NAME) || name(row).equals(stage);
  }

  private static Verdict verdict(Row row, List<Loading> loads) {
    return switch (row.action()) {
      case READY -> new Verdict.Ready(name(row), loads);
      case DEFER -> new Verdict.Defer(List.of());
      case CONTINUE -> new Verdict.Continue(time(row, Column.UNTIL));
      case HOLD -> new Verdict.Hold(time(row, Column.UNTIL));
      case CHANGE -> new Verdict.Change(name(row), loads);
      case ADVANCE -> new Verdict.Advance(name(row), loads);
      case FINISH -> new Verdict.Finish(loads);
      case STOP ->
          new Verdict.Stop(
              !row.has(Column.VALUE) || isOneOf(row, "yes", "no"),
              Cells.textOf(row.cell(Column.NAME)),
              loads);
      case END -> new Verdict.End();
      case NOT_RECOVERED -> new Verdict.NotRecovered(List.of());
      default -> throw new RowProblem(row, Column.ACTION, "is no verdict");
    };
  }

  private int of(Row row) {
    Integer known = numbers.get(row.cell(Column.OF));
    if (known == null) {
      throw new RowProblem(
          row, Column.OF, "give the number of a row above that tells what this is about");
    }
    return known;
  }

  private static Reading reading(Protocol protocol, Row row) {
    Reading bare = bare(protocol, row);
    if (!row.has(Column.POSTURE)) {
      return bare;
    }
    String word = row.cell(Column.POSTURE);
    for (Posture posture : Posture.values()) {
      if (posture.word().equals(word)) {
        return new Reading.Baseline(posture, bare);
      }
    }
    throw new RowProblem(row, Column.POSTURE, "there is no posture " + word + "; see the protocol");
  }

  private static Reading bare(Protocol protocol, Row row) {
    String name = name(row);
    String value = text(row, Column.VALUE);
    Optional<Type> type = type(protocol, name);
    boolean word = type.isPresent() && type.get() instanceof Type.Choice;
    boolean number = Cells.number(value).isPresent() || row.has(Column.UNIT);
    if (!word && (value.equals("yes") || value.equals("no"))) {
      return new Reading.Answered(name, value.equals("yes"));
    } else if (word || (!number && type.isEmpty())) {
      return new Reading.Chosen(name, value);
    }
    Quantity amount = quantity(row, Column.VALUE);
    return new Reading.Measured(
        name,
        amount,
        row.has(Column.STEP)
            ? Optional.of(Quantity.of(number(row, Column.STEP), amount.unit()))
            : Optional.empty(),
        row.has(Column.SCALE) ? Optional.of(text(row, Column.SCALE)) : Optional.empty());
  }

  private static Optional<Type> type(Protocol protocol, String name) {
    Signal signal = protocol.instruments().signals().get(name);
    Question question = protocol.instruments().questions().get(name);
    return signal != null
        ? Optional.of(signal.type())
        : Optional.ofNullable(question).map(Question::type);
  }

  private static Loading load(Row row) {
    Quantity value = quantity(row, Column.VALUE);
    if (!row.has(Column.EVERY)) {
      return new Loading(name(row), value);
    }
    return new Loading(
        name(row),
        value,
        Optional.of(
            new Loading.Ramp(
                Quantity.of(number(row, Column.STEP), value.unit()),
                time(row, Column.EVERY),
                Quantity.of(number(row, Column.TO), value.unit()))));
  }

  private static String reason(Row row) {
    return Cells.textOf(row.cell(Column.REASON));
  }

  private static String name(Row row) {
    return text(row, Column.NAME);
  }

  private static String text(Row row, Column column) {
    if (!row.has(column)) {
      throw new RowProblem(row, column, row.action().word() + " needs one; the cell is empty");
    }
    return Cells.textOf(row.cell(column));
  }

  private static Duration time(Row row, Column column) {
    String cell = text(row, column);
    return Cells.time(cell)
        .orElseThrow(
            () -> new RowProblem(row, column, "is " + cell + "; write a time such as 3:00"));
  }

  private static double number(Row row, Column column) {
    String cell = text(row, column);
    return Cells.number(cell)
        .orElseThrow(
            () -> new RowProblem(row, column, "is " + cell + "; write a number such as 104.5"));
  }

  private static int whole(Row row, Column column) {
    double number = number(row, column);
    if (number % 1 != 0 || Math.abs(number) > Integer.MAX_VALUE) {
      throw new RowProblem(row, column, "is " + row.cell(column) + "; write a whole number");
    }
    return (int) number;
  }

  private static Quantity quantity(Row row, Column column) {
    double number = number(row, column);
    String unit = row.cell(Column.UNIT);
    return Quantity.of(
        number,
        Cells.unit(unit)
            .orElseThrow(
                () ->
                    new RowProblem(
                        row, Column.UNIT, "there is no unit " + unit + "; write one such as bpm")));
  }
}
