package org.gradus.library;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Times.at;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Estimate;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.Problems;
import org.gradus.diagnostic.Span;
import org.gradus.history.Journal;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.protocol.Person;
import org.gradus.protocol.Protocol;
import org.gradus.rule.syntax.RuleText;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Ledger;
import org.gradus.session.Loading;
import org.gradus.session.Reading;
import org.gradus.session.Readings;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.gradus.unit.Quantity;
import org.gradus.unit.Unit;

/** Carries out a test as the language page tells it, line by line, in the words of a tester. */
final class LanguagePageRun {

  private final Map<String, String> files;
  private final Protocol protocol;
  private Session session;

  LanguagePageRun(Map<String, String> files) {
    this.files = files;
    this.protocol = LanguagePage.library(files).protocol("slope-walk");
    this.session = Session.open(protocol, man().age(40).build());
  }

  private static Person.Builder man() {
    return Person.builder().sex(Person.Sex.MALE).cleared(true).lowersHeartRate(false);
  }

  /** What it is refused with, if it is. */
  Optional<String> run(String text) {
    try {
      for (String line : text.lines().toList()) {
        String[] parts = line.split(" -> ", 2);
        Optional<String> answer = line(parts[0]);
        if (parts.length == 2) {
          assertThat(answer).as(line).contains(parts[1]);
        }
      }
      return Optional.empty();
    } catch (GradusException refused) {
      return Optional.of(shortened(String.valueOf(refused.getMessage())));
    }
  }

  // The digest of the files changes with them, and is long; so is a folder for temporary files.
  private static String shortened(String message) {
    return message
        .replaceAll("([0-9a-f]{4})[0-9a-f]{60}", "...")
        .replaceAll("/\\S*/walk.jsonl", "walk.jsonl")
        .replaceAll("/\\S*?page\\d+", "...")
        .replaceAll("process \\d+(, started [^;]+)?", "process ...");
  }

  private Optional<String> line(String line) {
    if (Character.isDigit(line.charAt(0))) {
      String[] parts = line.split(" ", 2);
      return timed(at(parts[0]), parts[1]);
    }
    return switch (line) {
      case "open" -> Optional.empty();
      case "begin" -> begin();
      case "estimate" -> Optional.of(estimate());
      case "open without age" -> opened(man().build());
      case "create a journal in place of a folder" ->
          journal(folder -> create(Files.createDirectory(folder.resolve("walk.jsonl"))).close());
      case "create a journal in a folder that does not exist" ->
          journal(folder -> create(folder.resolve("nowhere/walk.jsonl")).close());
      case "create a journal in place of a file" ->
          journal(folder -> create(Files.writeString(folder.resolve("walk.jsonl"), "x")).close());
      case "reopen a journal that is open" -> journal(this::reopenTwice);
      case "tell an event when the journal is closed" -> journal(this::tellWhenClosed);
      case "tell an event when the disk is full" -> tellWhenFull();
      case "verify with hill_1 at 6 % in the file" -> verify();
      case "read the record with line 3 damaged" -> damaged();
      case "read a record in which the event of line 2 is a time" -> unreadable();
      case "read an event without its time" ->
          Optional.of(Json.of(Json.toEvent("{\"what\": \"reported\", \"sign\": \"dizzy\"}")));
      case "load a folder that does not exist" -> loadNothing();
      case "load files in a thread that is interrupted" -> loadInterrupted();
      case "abandon with a reason of 3000 characters" -> tooLong();
      default -> named(line.split(" ", 3));
    };
  }

  private Optional<String> named(String[] words) {
    if (words[0].equals("set")) {
      protocol.with(words[1], quantity(words[2]));
    } else if (words[0].equals("protocol")) {
      LanguagePage.library(files).protocol(words[1]);
    } else {
      throw new IllegalArgumentException(String.join(" ", words));
    }
    return Optional.empty();
  }

  private Optional<String> opened(Person person) {
    session = Session.open(protocol, person);
    return Optional.empty();
  }

  private Optional<String> begin() {
    Duration zero = Duration.ZERO;
    session.record(
        zero, Readings.answer("unwell", false), Readings.resting(Readings.heartRate(68)));
    session.follow(session.decide(zero));
    return Optional.empty();
  }

  private Optional<String> timed(Duration at, String text) {
    if (text.equals("follow")) {
      Decision decision = session.decide(at);
      session.follow(decision);
      return Optional.of(decision.verdict().toString());
    } else if (text.startsWith("report ")) {
      return Optional.of(report(at, text.split(" ", -1)).verdict().toString());
    } else if (text.startsWith("event 3 is reported as ")) {
      session.asEvent(3).report(at, text.substring("event 3 is reported as ".length()));
      return Optional.empty();
    } else if (text.startsWith("load ")) {
      String[] words = text.split(" ", 3);
      Loading load = new Loading(words[1], quantity(words[2]));
      return Optional.of(session.loadSet(at, load).verdict().toString());
    } else if (text.startsWith("override advance to ")) {
      String stage = text.substring("override advance to ".length());
      session.override(at, new Verdict.Advance(stage, List.of()), "to go on");
      return Optional.empty();
    } else if (text.startsWith("the record says that ADVANCE to ")) {
      forged(at, text.split(" ", -1)[6]);
      return Optional.empty();
    } else if (text.equals("another thread reports dizzy while dizzy is reported")) {
      return anotherThread(at);
    } else if (text.contains("reported after the decision of")) {
      Decision before = session.decide(at("3:00"));
      session.report(at, text.split(" ", 2)[0]);
      session.follow(before);
    }
    return Optional.of(read(at, text).verdict().toString());
  }

  private void forged(Duration at, String stage) {
    List<Event> events = new ArrayList<>(session.events());
    events.add(new Event.Followed(new Verdict.Advance(stage), at));
    Session.resume(protocol, session.outcome().person(), events, Ledger.NONE);
  }

  private Decision report(Duration at, String[] words) {
    return words.length == 2
        ? session.report(at, words[1])
        : session.report(at, words[1], Integer.parseInt(words[2]));
  }

  private Decision read(Duration at, String text) {
    Duration taken = at;
    String told = text;
    if (text.startsWith("taken ")) {
      String[] words = text.split(" ", 3);
      taken = at(words[1]);
      told = words[2];
    }
    List<Reading> readings = new ArrayList<>();
    for (String one : told.split(", ", -1)) {
      String[] words = one.split(" ", 2);
      readings.add(Readings.measured(words[0], quantity(words[1])));
    }
    return session.recordTaken(at, taken, readings.toArray(new Reading[0]));
  }

  private static Quantity quantity(String text) {
    return RuleText.quantity(Span.all("page", text), new Problems()).orElseThrow();
  }

  // To two decimals, as the page shows it.
  private String estimate() {
    Estimate first = Capacity.of(session.outcome()).estimates().get(0);
    if (first instanceof Estimate.Available available) {
      Quantity vo2max = available.vo2max();
      return Quantity.of(vo2max.in(Unit.ML_PER_KG_PER_MINUTE), Unit.ML_PER_KG_PER_MINUTE)
          .rounded(2)
          .toString();
    }
    return "none: " + String.join("; ", first.reasons());
  }

  private Optional<String> anotherThread(Duration at) {
    List<GradusException> refused = new ArrayList<>();
    session.listen(
        (number, event, answer) -> {
          Thread other =
              new Thread(
                  () -> {
                    try {
                      session.report(at, "dizzy");
                    } catch (GradusException e) {
                      refused.add(e);
                    }
                  },
                  "another");
          other.start();
          try {
            other.join();
          } catch (InterruptedException e) {
            throw new IllegalStateException(e);
          }
        });
    String name = Thread.currentThread().getName();
    Thread.currentThread().setName("first");
    try {
      session.report(at, "dizzy");
    } finally {
      Thread.currentThread().setName(name);
    }
    throw refused.get(0);
  }

  /** Something done with a journal in a folder of its own. */
  private interface InFolder {
    void run(Path folder) throws IOException;
  }

  private static Optional<String> journal(InFolder step) {
    try {
      Path folder = Files.createTempDirectory("page");
      try {
        step.run(folder);
      } finally {
        Files.deleteIfExists(folder.resolve("walk.jsonl"));
        Files.delete(folder);
      }
      return Optional.empty();
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private Journal create(Path file) {
    return Journal.create(file, protocol, man().age(40).build(), Optional.empty());
  }

  private void reopenTwice(Path folder) {
    try (Journal first = create(folder.resolve("walk.jsonl"))) {
      assertThat(first).isNotNull();
      Journal.reopen(folder.resolve("walk.jsonl"), LanguagePage.library(files)).close();
    }
  }

  private void tellWhenClosed(Path folder) {
    Journal journal = create(folder.resolve("walk.jsonl"));
    Session kept = Session.open(protocol, man().age(40).build(), journal);
    journal.close();
    kept.record(Duration.ZERO, Readings.answer("unwell", false));
  }

  // As a journal refuses it on a disk that is full.
  private Optional<String> tellWhenFull() {
    Ledger full =
        (number, event, answer) -> {
          throw new JournalFailed(Code.G612, "walk.jsonl", "No space left on device");
        };
    Session.open(protocol, man().age(40).build(), full)
        .record(Duration.ZERO, Readings.answer("unwell", false));
    return Optional.empty();
  }

  private Optional<String> verify() {
    TestRecord record = TestRecord.of(session, Optional.empty());
    Map<String, String> other = new LinkedHashMap<>(files);
    other.computeIfPresent(
        "walk.yaml", (name, text) -> Meadow.edit(text, "5 km/h, grade: 5 %", "5 km/h, grade: 6 %"));
    record.verify(LanguagePage.library(other));
    return Optional.empty();
  }

  private static Optional<String> loadNothing() {
    Library.load(Path.of("/page0")).files();
    return Optional.empty();
  }

  private Optional<String> loadInterrupted() {
    Thread.currentThread().interrupt();
    try {
      LanguagePage.library(files);
    } finally {
      Thread.interrupted();
    }
    return Optional.empty();
  }

  private Optional<String> tooLong() {
    session.abandon(at("1:00"), "x".repeat(3000));
    return Optional.empty();
  }

  // The sum is right, as when somebody changes a record and works it out anew.
  private Optional<String> unreadable() {
    String head = TestRecord.of(session, Optional.empty()).text().lines().findFirst().orElseThrow();
    String before = head.substring(head.length() - 66, head.length() - 2);
    String body = "{\"n\": 1, \"event\": \"PT1H\", \"answer\": \"\", \"rule\": \"\"";
    TestRecord.parse(
        "walk.jsonl", head + "\n" + body + ", \"sum\": \"" + sha256(before + body) + "\"}\n");
    return Optional.empty();
  }

  private static String sha256(String text) {
    try {
      byte[] bytes = text.getBytes(StandardCharsets.US_ASCII);
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private Optional<String> damaged() {
    List<String> lines =
        new ArrayList<>(TestRecord.of(session, Optional.empty()).text().lines().toList());
    lines.set(2, lines.get(2).replace("n", "m"));
    TestRecord.parse("walk.jsonl", String.join("\n", lines) + "\n");
    return Optional.empty();
  }
}
