package org.gradus.examples.fleet;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.streaming.api.functions.sink.v2.DiscardingSink;
import org.gradus.bundled.Bundled;
import org.gradus.history.Json;
import org.gradus.history.LineLedger;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Session;

/**
 * Measures, in one run: messages a second of the fleet by the number of its tasks against plain
 * sessions in one thread, the state of a live test, and how long sessions take to be made again.
 */
final class FleetFigures {

  private static final int ROUNDS = 2;
  private static final double BILLION = 1e9;

  private final Library library = Bundled.library(Fleet.PROTOCOLS.toArray(new String[0]));
  private final GeneratedTests tests;
  private final Path folder;

  private FleetFigures(int number, Path folder) {
    this.tests = new GeneratedTests(3, number, Fleet.PROTOCOLS, 40, 1_800_000_000_000L);
    this.folder = folder;
  }

  /** Prints the figures of so many tests, or 300. */
  public static void main(String[] arguments) throws Exception {
    int number = arguments.length == 0 ? 300 : Integer.parseInt(arguments[0]);
    new FleetFigures(number, Files.createTempDirectory("fleet-")).print();
  }

  private void print() throws Exception {
    long messages = Fleet.write(tests, folder, library);
    List<List<RoomMessage>> rooms = new ArrayList<>();
    for (int test = 0; test < tests.tests(); test++) {
      rooms.add(tests.messages(test, library));
    }
    say("%d tests, %d messages, %d processors%n", tests.tests(), messages, processors());
    plain(rooms);
    double plain = messages / plain(rooms);
    say("plain sessions, one thread: %.0f messages a second%n", plain);
    for (int tasks = 1; tasks <= processors(); tasks *= 2) {
      run(tasks);
      double best = 0;
      for (int round = 0; round < ROUNDS; round++) {
        best = Math.max(best, messages / run(tasks));
      }
      say("fleet, %d tasks: %.0f a second, %.2f of plain sessions%n", tasks, best, best / plain);
    }
    List<List<String>> records = rooms.stream().map(this::lines).toList();
    double head = records.stream().mapToInt(lines -> lines.get(0).length()).average().orElseThrow();
    double all =
        records.stream()
            .mapToInt(lines -> lines.stream().mapToInt(String::length).sum())
            .average()
            .orElseThrow();
    double events = records.stream().mapToInt(lines -> lines.size() - 1).average().orElseThrow();
    say("state of a test after %.1f events: %.0f bytes, its first line %.0f%n", events, all, head);
    again(records);
    say("10,000 sessions made again: %.1f s%n", again(records) * 10_000 / records.size());
  }

  private static int processors() {
    return Runtime.getRuntime().availableProcessors();
  }

  private static void say(String format, Object... values) {
    System.out.printf(Locale.ROOT, format, values);
  }

  // The same work as in the fleet, without its state: events and decisions as JSON, asked at each
  // change, one event of each test in turn.
  private double plain(List<List<RoomMessage>> rooms) {
    long start = System.nanoTime();
    Map<String, Session> sessions = new HashMap<>();
    Map<String, Decision> last = new HashMap<>();
    long written = 0;
    for (int step = 0; step < tests.longest(); step++) {
      for (List<RoomMessage> room : rooms) {
        if (step < room.size()) {
          written += plain(room.get(step), sessions, last);
        }
      }
    }
    if (written == 0) {
      throw new IllegalStateException("nothing was answered");
    }
    return (System.nanoTime() - start) / BILLION;
  }

  private long plain(
      RoomMessage message, Map<String, Session> sessions, Map<String, Decision> last) {
    if (message.kind() == RoomMessage.Kind.OPEN) {
      Person person = Json.toPerson(message.body());
      Session session = Session.open(library.protocol(message.protocol()), person);
      sessions.put(message.test(), session);
      last.put(message.test(), session.decide(Duration.ZERO));
      return 1;
    }
    Session session = Optional.ofNullable(sessions.get(message.test())).orElseThrow();
    Decision now = Optional.ofNullable(last.get(message.test())).orElseThrow();
    Event event = Json.toEvent(message.body());
    long written = 0;
    for (Optional<Duration> change = now.changesAt();
        change.isPresent() && change.get().compareTo(event.at()) < 0;
        change = now.changesAt()) {
      now = session.decide(change.get());
      written += Json.of(now).length();
    }
    now = session.tell(event);
    last.put(message.test(), now);
    return written + Json.of(now).length();
  }

  private double run(int tasks) throws Exception {
    StreamExecutionEnvironment flink =
        StreamExecutionEnvironment.getExecutionEnvironment(Fleet.settings());
    flink.setParallelism(tasks);
    Fleet.job(flink, folder, library).answers().sinkTo(new DiscardingSink<>());
    return flink.execute().getNetRuntime() / 1e3;
  }

  private List<String> lines(List<RoomMessage> room) {
    List<String> lines = new ArrayList<>();
    Protocol protocol = library.protocol(room.get(0).protocol());
    Person person = Json.toPerson(room.get(0).body());
    LineLedger ledger =
        LineLedger.begin(protocol, person, Optional.of(room.get(0).test()), lines::add);
    Session session = Session.open(protocol, person, ledger);
    room.stream().skip(1).forEach(message -> session.tell(Json.toEvent(message.body())));
    return lines;
  }

  private double again(List<List<String>> records) {
    long start = System.nanoTime();
    for (List<String> lines : records) {
      String last = lines.get(lines.size() - 1);
      TestRecord.parse("record", String.join("\n", lines) + "\n")
          .resume(library, LineLedger.after(last, lines::add));
    }
    return (System.nanoTime() - start) / BILLION;
  }
}
