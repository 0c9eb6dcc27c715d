package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import com.code_intelligence.jazzer.junit.FuzzTest;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import com.fasterxml.jackson.databind.node.TextNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.stream.Stream;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.gradus.capacity.Capacity;
import org.gradus.diagnostic.GradusException;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Whatever a record says, it is read or refused. Bytes are taken as a list of changes to fields and
 * lines of sound records; the sums are put on afterwards, so that the reader gets past them.
 */
class RecordFuzzTest {

  private static final Library LIBRARY = Bundled.library();
  private static final ObjectMapper MAPPER = new ObjectMapper();
  private static final List<List<String>> RECORDS =
      Stream.of(
              HistoryTest.eventful(),
              Walks.walking(Walks.ines(), 105, 110),
              recovering(),
              Session.open(Walks.WALK, Walks.ines()))
          .map(session -> TestRecord.of(session, Optional.of("no. 17")).text())
          .map(text -> text.lines().map(Sealed::opened).toList())
          .toList();

  // What a field can be that it should not.
  private static final List<String> ODD =
      List.of(
          "null",
          "0",
          "-1",
          "1",
          "2147483648",
          "1e308",
          "1e999",
          "-0.0",
          "0.1",
          "true",
          "false",
          "{}",
          "[]",
          "\"\"",
          "\" \"",
          "\"abc\"",
          "\"PT0S\"",
          "\"PT3M\"",
          "\"-PT1S\"",
          "\"PT0.0001S\"",
          "\"PT24H\"",
          "\"PT9999999999H\"",
          "\"PT2562047788015215H30M7S\"",
          "\"kg\"",
          "\"bpm\"",
          "\"mph\"",
          "\"%\"",
          "\"years\"",
          "\"READY\"",
          "\"ADVANCE\"",
          "\"HOLD\"",
          "\"FINISH\"",
          "\"STOP\"",
          "\"END\"",
          "\"CONTINUE\"",
          "\"DEFER\"",
          "\"NOT RECOVERED\"",
          "\"read\"",
          "\"followed\"",
          "\"done\"",
          "\"walk_1\"",
          "\"walk_4\"",
          "\"heart_rate\"",
          "\"chest_pain\"",
          "\"\\ud800\"",
          "[".repeat(30) + "]".repeat(30));

  private static Session recovering() {
    Session session = Walks.walking(Walks.ines(), 105, 110);
    session.report(at("3:10"), "chest_pain");
    session.follow(session.decide(at("3:10")));
    session.record(at("4:10"), heartRate(90));
    return session;
  }

  static Stream<byte[]> seeds() {
    return Stream.of(new byte[0], new byte[] {1, 1, 2, 3, 5, 8, 13, 21, 34, 55, 89});
  }

  @MethodSource("seeds")
  @FuzzTest(maxDuration = "10m")
  void anyChangesAreReadOrRefused(byte[] changes) throws JsonProcessingException {
    read(changed(new Choices(changes)));
  }

  @Provide
  Arbitrary<byte[]> changes() {
    return Arbitraries.randomValue(
        random -> {
          byte[] bytes = new byte[4 + random.nextInt(40)];
          random.nextBytes(bytes);
          return bytes;
        });
  }

  @Property(tries = 2000)
  void changedRecordsAreReadOrRefused(@ForAll("changes") byte[] changes)
      throws JsonProcessingException {
    read(changed(new Choices(changes)));
  }

  /** Any characters for the lines themselves, sealed. */
  @Property(tries = 1000)
  void brokenLinesAreReadOrRefused(@ForAll("changes") byte[] changes) {
    Choices choices = new Choices(changes);
    List<String> lines = new ArrayList<>(RECORDS.get(choices.below(RECORDS.size())));
    while (choices.more()) {
      int place = choices.below(lines.size());
      StringBuilder line = new StringBuilder(lines.get(place));
      int from = choices.wide(line.length());
      switch (choices.below(3)) {
        case 0 -> line.delete(from, from + choices.below(30));
        case 1 -> line.insert(from, ODD.get(choices.below(ODD.size())));
        default -> line.setCharAt(from, (char) choices.below(128));
      }
      lines.set(place, line.isEmpty() ? "{}" : line.toString().replace('\n', ' '));
    }
    read(Sealed.lines(lines));
  }

  private static void read(String text) {
    TestRecord record;
    try {
      record = TestRecord.parse("record", text);
    } catch (RecordRefused refused) {
      assertThat(refused.getMessage()).contains("record").hasSizeLessThan(2_000);
      return;
    }
    assertThat(TestRecord.parse("record", record.text())).isEqualTo(record);
    attempt(() -> assertThat(record.verify(LIBRARY)).isNotNull());
    attempt(() -> assertThat(record.rerun(LIBRARY)).isNotNull());
    attempt(
        () -> {
          Session session = record.resume(LIBRARY, Ledger.NONE);
          assertThat(session.events()).hasSameSizeAs(record.entries());
          assertThat(Capacity.of(session.outcome())).isNotNull();
        });
  }

  private static void attempt(Runnable step) {
    try {
      step.run();
    } catch (GradusException refused) {
      assertThat(refused.getMessage()).isNotEmpty();
    }
  }

  private static String changed(Choices choices) throws JsonProcessingException {
    List<JsonNode> lines = new ArrayList<>();
    for (String line : RECORDS.get(choices.below(RECORDS.size()))) {
      lines.add(MAPPER.readTree(line));
    }
    while (choices.more() && !lines.isEmpty()) {
      int place = choices.below(lines.size());
      int other = choices.below(lines.size());
      switch (choices.below(12)) {
        case 0 -> lines.remove(place);
        case 1 -> lines.add(other, lines.get(place).deepCopy());
        case 2 -> lines.set(other, lines.set(place, lines.get(other)));
        case 3 -> lines.subList(place, lines.size()).clear();
        default -> change(lines.get(place), lines.get(other), choices);
      }
    }
    // Mostly numbered anew: whoever changes a record would.
    if (choices.below(5) > 0) {
      for (int i = 1; i < lines.size(); i++) {
        if (lines.get(i) instanceof ObjectNode line) {
          line.put("n", i);
        }
      }
    }
    return Sealed.lines(
        lines.stream()
            .map(line -> line.toString().replace("\":", "\": ").replace(",\"", ", \""))
            .toList());
  }

  /** Changes a field of a line, or puts one of another line there. */
  private static void change(JsonNode line, JsonNode other, Choices choices)
      throws JsonProcessingException {
    List<JsonNode> holders = new ArrayList<>();
    collect(line, holders);
    List<JsonNode> others = new ArrayList<>();
    collect(other, others);
    JsonNode holder = holders.get(choices.below(holders.size()));
    JsonNode odd = MAPPER.readTree(ODD.get(choices.below(ODD.size())));
    JsonNode value =
        switch (choices.below(4)) {
          case 0 -> others.get(choices.below(others.size())).deepCopy();
          case 1 -> MAPPER.getNodeFactory().numberNode(choices.below(256) * 1.5);
          case 2 -> new TextNode("PT" + choices.below(256) + "S");
          default -> odd;
        };
    if (holder instanceof ObjectNode object && !object.isEmpty()) {
      List<String> names = new ArrayList<>();
      object.fieldNames().forEachRemaining(names::add);
      String name = names.get(choices.below(names.size()));
      switch (choices.below(6)) {
        case 0 -> object.remove(name);
        case 1 -> object.set("more", value);
        default -> object.set(name, value);
      }
    } else if (holder instanceof ArrayNode array) {
      if (array.isEmpty() || choices.below(2) == 0) {
        array.add(value);
      } else {
        array.set(choices.below(array.size()), value);
      }
    }
  }

  private static void collect(JsonNode node, List<JsonNode> holders) {
    if (node.isContainerNode()) {
      holders.add(node);
      node.forEach(child -> collect(child, holders));
    }
  }

  /** Bytes read as choices; 0 when there are no more. */
  private static final class Choices {

    private final byte[] bytes;
    private int next;

    private Choices(byte[] bytes) {
      this.bytes = bytes;
    }

    private boolean more() {
      return next < bytes.length;
    }

    private int below(int bound) {
      return bound <= 0 || !more() ? 0 : (bytes[next++] & 0xFF) % bound;
    }

    private int wide(int bound) {
      return (below(256) * 256 + below(256)) % Math.max(1, bound);
    }
  }

  /** A long run by hand: the minutes to go on. */
  public static void main(String[] arguments) throws JsonProcessingException {
    long seed = System.nanoTime();
    System.out.println("seed " + seed);
    Random random = new Random(seed);
    long until = System.nanoTime() + Long.parseLong(arguments[0]) * 60_000_000_000L;
    long tries = 0;
    long longest = 0;
    while (System.nanoTime() < until) {
      byte[] changes = new byte[4 + random.nextInt(random.nextInt(4) > 0 ? 12 : 60)];
      random.nextBytes(changes);
      long start = System.nanoTime();
      try {
        read(changed(new Choices(changes)));
      } catch (Throwable found) {
        System.out.println(java.util.HexFormat.of().formatHex(changes) + " " + found);
      }
      longest = Math.max(longest, System.nanoTime() - start);
      tries++;
    }
    System.out.println(tries + " tries, the longest " + longest / 1_000_000 + " ms");
  }
}
