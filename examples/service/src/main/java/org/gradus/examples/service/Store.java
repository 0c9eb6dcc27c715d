package org.gradus.examples.service;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Session;

/**
 * Tests in a SQLite database. An event is committed to the disk before its session answers; a
 * session is made anew from its events after a crash.
 */
final class Store implements AutoCloseable {

  private final String name;
  private final Library library;
  private final Connection database;

  Store(Path file, Library library) throws SQLException {
    this.name = file.toString();
    this.library = library;
    this.database = DriverManager.getConnection("jdbc:sqlite:" + file);
    try (Statement sql = database.createStatement()) {
      sql.execute("pragma journal_mode = wal");
      // A commit returns when it is on the disk, not before.
      sql.execute("pragma synchronous = full");
      sql.execute("create table if not exists tests (id text primary key, head text not null)");
      sql.execute(
          "create table if not exists events (test text, number integer, event text not null,"
              + " primary key (test, number))");
    }
  }

  /**
   * Opens a test. To open one again that has no events yet does nothing, so that a client may try
   * again.
   */
  Session open(String id, Protocol protocol, Person person) {
    Session session = Session.open(protocol, person, ledger(id));
    // The head of a record says what the protocol means, and the person.
    String head = TestRecord.of(session, Optional.of(id)).text();
    run("insert or ignore into tests (id, head) values (?, ?)", id, head);
    return session;
  }

  /** A test as it stands in the database, if there is such a test. */
  Optional<Session> resume(String id) {
    Optional<String> head = rows("select head from tests where id = ?", id).stream().findFirst();
    if (head.isEmpty()) {
      return Optional.empty();
    }
    TestRecord record = TestRecord.parse(id, head.get());
    // Refused if the protocol means something else by now, with the figures that differ.
    Protocol protocol = record.resume(library, Ledger.NONE).protocol();
    List<Event> events =
        rows("select event from events where test = ? order by number", id).stream()
            .map(Json::toEvent)
            .toList();
    return Optional.of(Session.resume(protocol, record.title().person(), events, ledger(id)));
  }

  private Ledger ledger(String id) {
    return (number, event, answer) ->
        run(
            "insert into events (test, number, event) values (?, ?, ?)",
            id,
            number,
            Json.of(event));
  }

  private synchronized void run(String sql, Object... values) {
    try (PreparedStatement statement = prepared(sql, values)) {
      statement.executeUpdate();
    } catch (SQLException e) {
      throw failed(e);
    }
  }

  private synchronized List<String> rows(String sql, Object... values) {
    List<String> rows = new ArrayList<>();
    try (PreparedStatement statement = prepared(sql, values);
        ResultSet found = statement.executeQuery()) {
      while (found.next()) {
        rows.add(found.getString(1));
      }
      return rows;
    } catch (SQLException e) {
      throw failed(e);
    }
  }

  private PreparedStatement prepared(String sql, Object... values) throws SQLException {
    PreparedStatement statement = database.prepareStatement(sql);
    for (int i = 0; i < values.length; i++) {
      statement.setObject(i + 1, values[i]);
    }
    return statement;
  }

  // What could not be kept has not happened: the session refuses the event.
  private JournalFailed failed(SQLException e) {
    return new JournalFailed(Code.G607, name, String.valueOf(e.getMessage()), e);
  }

  @Override
  public synchronized void close() throws SQLException {
    database.close();
  }
}
