package org.gradus.examples.service;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.DecisionOutdated;
import org.gradus.diagnostic.EventConflict;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.JsonRefused;
import org.gradus.diagnostic.NotFound;
import org.gradus.diagnostic.SessionInUse;
import org.gradus.diagnostic.ValueRefused;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Listener;
import org.gradus.session.Session;

/**
 * Live tests over HTTP, for computers of one test room: it has no log-in and listens on this
 * machine only.
 *
 * <pre>
 * PUT  /tests/ID?protocol=graded-walk-standard   a person      opens a test; answers its first decision
 * PUT  /tests/ID/events/N                        an event      tells event N; answers the decision
 * GET  /tests/ID?at=PT3M                                       the decision of a moment
 * GET  /tests/ID/record                                        the record, as JSON Lines
 * GET  /tests/ID/stream                                        each decision as it is made
 * </pre>
 *
 * <p>Every request may be sent again when its answer was lost: it is answered alike, and nothing is
 * recorded twice. Bodies are JSON as {@link Json} reads and writes it. Gradus advises a trained
 * person, who decides; it is not a medical device.
 */
public final class Service implements AutoCloseable {

  private static final int LARGEST_BODY = 1 << 20;
  private static final Duration PULSE = Duration.ofSeconds(10);

  private final Library library;
  private final Store store;
  // A session is made from the database when it is first asked for.
  private final Map<String, Session> live = new ConcurrentHashMap<>();
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final HttpServer server;

  /** What is sent back. */
  private record Answer(int status, String type, String body) {
    static Answer json(int status, String body) {
      return new Answer(status, "application/json", body);
    }
  }

  /**
   * Starts a service.
   *
   * @param port where it listens; 0: any that is free
   * @param database the file of its database, made if it does not exist
   */
  public Service(int port, Path database) throws IOException, SQLException {
    library = Bundled.library();
    store = new Store(database, library);
    server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 0);
    server.setExecutor(threads);
    server.createContext("/tests/", this::handle);
    server.start();
  }

  /** The port on which it listens. */
  public int port() {
    return server.getAddress().getPort();
  }

  /** Starts a service until it is killed. Arguments: a port and the file of its database. */
  public static void main(String[] arguments) throws IOException, SQLException {
    // Through exec:java both come as one.
    String[] given = String.join(",", arguments).split(",", 2);
    @SuppressWarnings("resource") // as long as the process
    Service service = new Service(Integer.parseInt(given[0]), Path.of(given[1]));
    System.out.println("listening on " + service.port());
  }

  @Override
  public void close() throws SQLException {
    server.stop(0);
    threads.shutdownNow();
    store.close();
  }

  private void handle(HttpExchange exchange) throws IOException {
    try (exchange) {
      String[] path = exchange.getRequestURI().getPath().split("/", -1);
      if (path.length == 4 && path[3].equals("stream") && isGet(exchange)) {
        stream(exchange, session(path[2]));
        return;
      }
      Answer answer = answered(exchange, path);
      byte[] body = answer.body().getBytes(UTF_8);
      exchange.getResponseHeaders().set("Content-Type", answer.type());
      exchange.sendResponseHeaders(answer.status(), body.length);
      exchange.getResponseBody().write(body);
    }
  }

  private Answer answered(HttpExchange exchange, String[] path) throws IOException {
    try {
      if (path.length == 3 && isPut(exchange)) {
        return open(path[2], query(exchange, "protocol"), body(exchange));
      } else if (path.length == 3 && isGet(exchange)) {
        Duration at = Duration.parse(query(exchange, "at"));
        return Answer.json(200, Json.of(session(path[2]).decide(at)));
      } else if (path.length == 5 && path[3].equals("events") && isPut(exchange)) {
        return tell(session(path[2]), Integer.parseInt(path[4]), body(exchange));
      } else if (path.length == 4 && path[3].equals("record") && isGet(exchange)) {
        String record = TestRecord.of(session(path[2]), Optional.of(path[2])).text();
        return new Answer(200, "application/jsonl", record);
      }
      return Answer.json(404, Json.write(Map.of("message", "there is nothing here")));
    } catch (GradusException refused) {
      return Answer.json(status(refused), Json.of(refused));
    } catch (DateTimeException | IllegalArgumentException malformed) {
      String message = String.valueOf(malformed.getMessage());
      return Answer.json(400, Json.write(Map.of("message", message)));
    }
  }

  // 409 and 503: what was told has not happened. After 503 it can be sent again as it is.
  private static int status(GradusException refused) {
    if (refused instanceof NotFound) {
      return 404;
    } else if (refused instanceof JsonRefused || refused instanceof ValueRefused) {
      return 400;
    } else if (refused instanceof EventConflict || refused instanceof DecisionOutdated) {
      return 409;
    }
    return refused instanceof JournalFailed || refused instanceof SessionInUse ? 503 : 422;
  }

  private Answer open(String id, String protocol, String person) {
    if (!id.matches("[A-Za-z0-9-]{1,64}")) {
      throw new IllegalArgumentException("an id has up to 64 letters, digits and hyphens");
    }
    Session session =
        live.computeIfAbsent(
            id,
            key ->
                store
                    .resume(key)
                    .orElseGet(
                        () -> store.open(key, library.protocol(protocol), Json.toPerson(person))));
    return Answer.json(200, Json.of(session.decide(Duration.ZERO)));
  }

  private static Answer tell(Session session, int number, String event) {
    // Requests of one test take turns. Without this, the second of two would be refused.
    synchronized (session) {
      return Answer.json(200, Json.of(session.asEvent(number).tell(Json.toEvent(event))));
    }
  }

  private Session session(String id) {
    return live.computeIfAbsent(
        id,
        key ->
            store
                .resume(key)
                .orElseThrow(() -> new NotFound(Code.G604, "test", key, "open it first")));
  }

  // Server-sent events: the number of the event and the decision, as long as somebody listens.
  private void stream(HttpExchange exchange, Session session) throws IOException {
    BlockingQueue<String> decisions = new LinkedBlockingQueue<>();
    Listener listener =
        (number, event, answer) ->
            decisions.add("id: " + number + "\ndata: " + Json.of(answer) + "\n\n");
    exchange.getResponseHeaders().set("Content-Type", "text/event-stream");
    exchange.sendResponseHeaders(200, 0);
    session.listen(listener);
    try {
      OutputStream out = exchange.getResponseBody();
      // Sent at once, so that the listener knows that it misses nothing from now on.
      write(out, ": listening\n\n");
      while (true) {
        String next = decisions.poll(PULSE.toMillis(), TimeUnit.MILLISECONDS);
        write(out, next == null ? ": still here\n\n" : next);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      session.unlisten(listener);
    }
  }

  private static void write(OutputStream out, String text) throws IOException {
    out.write(text.getBytes(UTF_8));
    out.flush();
  }

  private static boolean isGet(HttpExchange exchange) {
    return exchange.getRequestMethod().equals("GET");
  }

  private static boolean isPut(HttpExchange exchange) {
    return exchange.getRequestMethod().equals("PUT");
  }

  private static String body(HttpExchange exchange) throws IOException {
    byte[] body = exchange.getRequestBody().readNBytes(LARGEST_BODY + 1);
    if (body.length > LARGEST_BODY) {
      throw new IllegalArgumentException("a body has up to " + LARGEST_BODY + " bytes");
    }
    return new String(body, UTF_8);
  }

  private static String query(HttpExchange exchange, String name) {
    String query = Optional.ofNullable(exchange.getRequestURI().getQuery()).orElse("");
    return List.of(query.split("&", -1)).stream()
        .filter(part -> part.startsWith(name + "="))
        .map(part -> part.substring(name.length() + 1))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("say " + name + "=..."));
  }
}
