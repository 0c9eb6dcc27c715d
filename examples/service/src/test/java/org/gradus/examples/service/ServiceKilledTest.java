package org.gradus.examples.service;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.answer;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Readings.pressure;
import static org.gradus.session.Readings.resting;
import static org.gradus.session.Times.at;
import static org.gradus.unit.Quantities.kg;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.OptionalInt;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import org.gradus.bundled.Bundled;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A service with many live tests is killed again and again; every event that it acknowledged is
 * there afterwards, once. {@code -Dservice.kills=50 -Dservice.tests=2000} makes it longer.
 */
class ServiceKilledTest {

  private static final int TESTS = Integer.getInteger("service.tests", 200);
  private static final int KILLS = Integer.getInteger("service.kills", 2);

  // How many events each test has.
  private static final int EVENTS = 7;

  private static final Library LIBRARY = Bundled.library();
  private static final Protocol WALK = LIBRARY.protocol("graded-walk-standard");
  private static final Person PERSON =
      Person.builder()
          .age(46)
          .sex(Person.Sex.FEMALE)
          .mass(kg(71))
          .cleared(true)
          .lowersHeartRate(false)
          .build();

  private final HttpClient client = HttpClient.newHttpClient();
  private final AtomicInteger acknowledged = new AtomicInteger();
  private volatile int port;

  @Test
  void everyAcknowledgedEventOfTwoHundredLiveTestsSurvivesKills(@TempDir Path folder)
      throws Exception {
    long seed = System.nanoTime();
    System.out.println("service kills with seed " + seed);
    Random random = new Random(seed);
    Path database = folder.resolve("tests.db");
    Process service = started(database);
    ExecutorService rooms = Executors.newFixedThreadPool(TESTS);
    try {
      List<Future<Session>> tests = new ArrayList<>();
      for (int i = 0; i < TESTS; i++) {
        String id = "test-" + i;
        Random own = new Random(random.nextLong());
        tests.add(rooms.submit(() -> taken(id, own)));
      }
      int events = TESTS * EVENTS;
      for (int kill = 1; kill <= KILLS; kill++) {
        // At some moment of the next part of all events.
        int from = events * (kill - 1) / (KILLS + 1);
        int until = from + 1 + random.nextInt(events / (KILLS + 1));
        while (acknowledged.get() < until && !allDone(tests)) {
          Thread.sleep(5);
        }
        assertThat(allDone(tests)).as("killed while tests go on").isFalse();
        service.destroyForcibly().waitFor();
        service = started(database);
      }
      for (int i = 0; i < TESTS; i++) {
        isKept("test-" + i, tests.get(i).get());
      }
    } finally {
      rooms.shutdownNow();
      service.destroyForcibly().waitFor();
    }
  }

  private static boolean allDone(List<Future<Session>> tests) {
    return tests.stream().allMatch(Future::isDone);
  }

  private void isKept(String id, Session told) throws Exception {
    String text = send(get("/tests/" + id + "/record")).body();
    TestRecord record = TestRecord.parse(id, text);
    assertThat(record.entries()).extracting(TestRecord.Entry::event).isEqualTo(told.events());
    assertThat(record.verify(LIBRARY)).isEmpty();
  }

  /** One test, told to the service and to a session of our own, which must answer alike. */
  private Session taken(String id, Random random) throws Exception {
    Session own = Session.open(WALK, PERSON);
    String first = sent(put("/tests/" + id + "?protocol=" + WALK.id(), Json.of(PERSON)));
    assertThat(Json.toDecision(first)).isEqualTo(own.decide(at("0:00")));
    tell(
        id,
        own,
        new Event.Read(
            List.of(
                resting(heartRate(60 + random.nextInt(20))),
                resting(pressure(122, 78)),
                answer("unwell_today", false),
                answer("recent_event", false),
                answer("pregnant", false)),
            at("0:00"),
            at("0:00")));
    follow(id, own);
    for (String time : List.of("2:00", "3:00")) {
      tell(
          id, own, new Event.Read(List.of(heartRate(100 + random.nextInt(4))), at(time), at(time)));
    }
    follow(id, own);
    tell(id, own, new Event.Reported("chest_pain", OptionalInt.empty(), at("5:10")));
    follow(id, own);
    assertThat(own.events()).hasSize(EVENTS);
    return own;
  }

  // As a page would: what the service recommends is sent back.
  private void follow(String id, Session own) throws Exception {
    Duration now = own.events().get(own.events().size() - 1).at();
    Decision shown = Json.toDecision(sent(get("/tests/" + id + "?at=" + now)));
    assertThat(shown).isEqualTo(own.decide(now));
    assertThat(shown.kind()).isNotIn(Verdict.Kind.CONTINUE, Verdict.Kind.MEASURE);
    tell(id, own, new Event.Followed(shown.verdict(), shown.at()));
  }

  private void tell(String id, Session own, Event event) throws Exception {
    int number = own.events().size() + 1;
    Decision expected = own.tell(event);
    String answer = sent(put("/tests/" + id + "/events/" + number, Json.of(event)));
    assertThat(answer).isEqualTo(Json.of(expected));
    acknowledged.incrementAndGet();
  }

  /**
   * Sends a request until it is answered, as a client does that does not know what became of it.
   */
  private String sent(Request request) throws InterruptedException {
    while (true) {
      try {
        HttpResponse<String> response = send(request);
        assertThat(response.statusCode()).as(response.body()).isEqualTo(200);
        return response.body();
      } catch (IOException killed) {
        Thread.sleep(250);
      }
    }
  }

  /** A request to the service, on whatever port it listens by then. */
  @FunctionalInterface
  private interface Request {
    HttpRequest to(int port);
  }

  private HttpResponse<String> send(Request request) throws IOException, InterruptedException {
    return client.send(request.to(port), BodyHandlers.ofString(UTF_8));
  }

  private static Request get(String path) {
    return port -> HttpRequest.newBuilder(uri(port, path)).timeout(Duration.ofSeconds(20)).build();
  }

  private static Request put(String path, String body) {
    return port ->
        HttpRequest.newBuilder(uri(port, path))
            .timeout(Duration.ofSeconds(20))
            .PUT(BodyPublishers.ofString(body))
            .build();
  }

  private static URI uri(int port, String path) {
    return URI.create("http://127.0.0.1:" + port + path);
  }

  private Process started(Path database) throws IOException {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-Dslf4j.internal.verbosity=ERROR",
                "-cp",
                System.getProperty("java.class.path"),
                Service.class.getName(),
                "0",
                database.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    BufferedReader said =
        new BufferedReader(new InputStreamReader(process.getInputStream(), UTF_8));
    String line = String.valueOf(said.readLine());
    assertThat(line).startsWith("listening on ");
    port = Integer.parseInt(line.substring("listening on ".length()));
    return process;
  }

  @Test
  void aStreamSendsEachDecisionAndRefusalsSayWhy(@TempDir Path folder) throws Exception {
    try (Service service = new Service(0, folder.resolve("tests.db"))) {
      port = service.port();
      assertThat(send(put("/tests/a?protocol=graded-walk-standart", Json.of(PERSON))))
          .satisfies(
              answer -> {
                assertThat(answer.statusCode()).isEqualTo(404);
                assertThat(answer.body()).contains("G604", "graded-walk-standard");
              });
      assertThat(send(get("/tests/a?at=PT0S")).statusCode()).isEqualTo(404);
      sent(put("/tests/a?protocol=graded-walk-standard", Json.of(PERSON)));
      String pain = Json.of(new Event.Reported("chest_pain", OptionalInt.empty(), at("0:10")));
      HttpResponse<Stream<String>> stream =
          client.send(get("/tests/a/stream").to(port), BodyHandlers.ofLines());
      try (Stream<String> lines = stream.body()) {
        Iterator<String> heard = lines.iterator();
        assertThat(heard.next()).isEqualTo(": listening");
        heard.next();
        String answer = sent(put("/tests/a/events/1", pain));
        assertThat(heard.next()).isEqualTo("id: 1");
        assertThat(heard.next()).isEqualTo("data: " + answer);
        assertThat(sent(put("/tests/a/events/1", pain))).isEqualTo(answer);
      }
      String other = Json.of(new Event.Reported("leg_pain", OptionalInt.of(3), at("0:10")));
      assertThat(send(put("/tests/a/events/1", other)))
          .satisfies(
              answer -> {
                assertThat(answer.statusCode()).isEqualTo(409);
                assertThat(answer.body()).contains("EventConflict");
              });
      String unknown = Json.of(new Event.Reported("headache", OptionalInt.empty(), at("0:10")));
      assertThat(send(put("/tests/a/events/2", unknown)).statusCode()).isEqualTo(422);
      assertThat(send(put("/tests/a/events/2", "{}")).statusCode()).isEqualTo(400);
      assertThat(send(put("/tests/a/events/two", pain)).statusCode()).isEqualTo(400);
    }
  }

  // An example is to show how little a host has to write.
  @Test
  void theServiceHasAtMostFourHundredLines() throws IOException {
    int lines = 0;
    try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
      for (Path file : files.filter(path -> path.toString().endsWith(".java")).toList()) {
        lines += Files.readAllLines(file).size();
      }
    }
    assertThat(lines).isLessThanOrEqualTo(400);
  }
}
