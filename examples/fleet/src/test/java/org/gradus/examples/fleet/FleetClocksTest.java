package org.gradus.examples.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.apache.flink.api.common.eventtime.Watermark;
import org.apache.flink.api.common.eventtime.WatermarkGenerator;
import org.apache.flink.api.common.eventtime.WatermarkOutput;
import org.apache.flink.api.common.eventtime.WatermarkStrategy;
import org.apache.flink.api.common.typeinfo.TypeInformation;
import org.apache.flink.streaming.api.datastream.DataStream;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.util.CloseableIterator;
import org.gradus.bundled.Bundled;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Decision;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;

/** Watermarks that stand still or run ahead of the messages lose no answer and no message. */
class FleetClocksTest {

  private static final String WALK = "graded-walk-standard";
  private static final Library LIBRARY = Bundled.library(WALK);
  private static final long BEGUN = 1_800_000_000_000L;
  private static final int TESTS = 24;
  private static final Duration AHEAD = Duration.ofMinutes(2);

  // One session in memory: nearly every message finds its session displaced by another test.
  private static final int SESSIONS = 1;

  /** Watermarks so far ahead of each message; none at all if that is negative. */
  private record Clock(Duration ahead) implements WatermarkGenerator<RoomMessage> {

    static WatermarkStrategy<RoomMessage> of(Duration ahead) {
      return WatermarkStrategy.<RoomMessage>forGenerator(context -> new Clock(ahead))
          .withTimestampAssigner((message, before) -> message.time());
    }

    @Override
    public void onEvent(RoomMessage message, long time, WatermarkOutput output) {
      if (!ahead.isNegative()) {
        output.emitWatermark(new Watermark(message.time() + ahead.toMillis()));
      }
    }

    @Override
    public void onPeriodicEmit(WatermarkOutput output) {
      // Only messages move this clock.
    }
  }

  /** What came out about one test, each in its order. */
  private static final class Out {
    final List<String> told = new ArrayList<>();
    final List<String> answers = new ArrayList<>();
    final List<String> codes = new ArrayList<>();
    final List<String> refused = new ArrayList<>();
    final List<String> records = new ArrayList<>();
  }

  // The stream ends at last, so what a standing clock held back comes then.
  @Test
  void aClockThatStandsStillGivesTheAnswersOfPlainSessions() throws Exception {
    Map<String, List<RoomMessage>> arriving = arriving(false);
    Map<String, Out> found = play(arriving, Clock.of(Duration.ofMillis(-1)));
    arriving.forEach(
        (test, messages) -> {
          Out out = found.getOrDefault(test, new Out());
          PlainTest plain = new PlainTest(LIBRARY.protocol(WALK), messages);
          assertThat(out.answers).as(test).isEqualTo(plain.decisions);
          assertThat(out.codes).as(test).isEmpty();
          assertThat(out.records).as(test).containsExactly(plain.record());
        });
  }

  // Each message comes later than the watermark: the tests were asked two minutes too far by then.
  @Test
  void aClockThatRunsAheadOnlyAsksMore() throws Exception {
    Map<String, List<RoomMessage>> arriving = arriving(false);
    Map<String, Out> found = play(arriving, Clock.of(AHEAD));
    int early = 0;
    for (Map.Entry<String, List<RoomMessage>> entry : arriving.entrySet()) {
      Out out = found.getOrDefault(entry.getKey(), new Out());
      PlainTest plain = new PlainTest(LIBRARY.protocol(WALK), entry.getValue());
      assertThat(out.answers).doesNotHaveDuplicates().containsAll(plain.decisions);
      assertThat(asked(entry.getValue())).containsAll(out.answers);
      assertThat(plain.decisions).containsSubsequence(out.told);
      assertThat(out.told).hasSize(entry.getValue().size() - 1);
      assertThat(out.codes).isEmpty();
      assertThat(out.records).containsExactly(plain.record());
      early += out.answers.size() - plain.decisions.size();
    }
    assertThat(early).isPositive();
  }

  // Tests are closed while their rooms still send. Each message is then an event of the record or
  // a refusal with its text.
  @Test
  void aClockThatRunsFarAheadDropsNothingSilently() throws Exception {
    Map<String, List<RoomMessage>> arriving = arriving(true);
    // Where two messages of a test lie further apart than this leaves, it is closed between them.
    Map<String, Out> found =
        play(arriving, Clock.of(PlainTest.SILENCE.minus(Duration.ofSeconds(90))));
    Set<String> codes = new HashSet<>();
    int taken = 0;
    for (Map.Entry<String, List<RoomMessage>> entry : arriving.entrySet()) {
      Out out = found.getOrDefault(entry.getKey(), new Out());
      List<String> bodies = entry.getValue().stream().skip(1).map(RoomMessage::body).toList();
      assertThat(out.told.size() + out.refused.size()).isEqualTo(bodies.size());
      assertThat(bodies).containsSubsequence(out.refused);
      assertThat(out.records).hasSize(1);
      // A record has a first line, and one for each event.
      assertThat(out.records.get(0).lines()).hasSize(1 + out.told.size());
      codes.addAll(out.codes);
      taken += out.told.size();
    }
    assertThat(taken).isPositive();
    assertThat(codes).contains("G604");
  }

  // All that may be answered: after the opening and each event, every change of the time ahead.
  private static Set<String> asked(List<RoomMessage> messages) {
    Session session = Session.open(LIBRARY.protocol(WALK), Json.toPerson(messages.get(0).body()));
    Set<String> asked = new HashSet<>();
    Decision decision = session.decide(Duration.ZERO);
    for (int next = 1; next <= messages.size(); next++) {
      Duration until = decision.at().plus(PlainTest.SILENCE);
      asked.add(Json.of(decision));
      for (Optional<Duration> change = decision.changesAt();
          change.filter(time -> time.compareTo(until) <= 0).isPresent();
          change = decision.changesAt()) {
        decision = session.decide(change.get());
        asked.add(Json.of(decision));
      }
      if (next < messages.size()) {
        Event event = Json.toEvent(messages.get(next).body());
        decision = session.tell(event);
      }
    }
    return asked;
  }

  // The messages of each test as they arrive, perhaps with every third after the one it follows.
  private static Map<String, List<RoomMessage>> arriving(boolean disorder) {
    GeneratedTests tests = new GeneratedTests(11, TESTS, List.of(WALK), 30, BEGUN);
    Map<String, List<RoomMessage>> arriving = new LinkedHashMap<>();
    for (int test = 0; test < TESTS; test++) {
      List<RoomMessage> messages = new ArrayList<>(tests.messages(test, LIBRARY));
      for (int i = 2; disorder && i + 1 < messages.size(); i += 3) {
        Collections.swap(messages, i, i + 1);
      }
      arriving.put(messages.get(0).test(), messages);
    }
    return arriving;
  }

  // In the order of time. One that was overtaken arrives when the one before it does.
  private static List<RoomMessage> together(Map<String, List<RoomMessage>> arriving) {
    NavigableMap<Long, List<RoomMessage>> byTime = new TreeMap<>();
    for (List<RoomMessage> messages : arriving.values()) {
      long time = 0;
      for (RoomMessage message : messages) {
        time = Math.max(time, message.time());
        byTime.computeIfAbsent(time, at -> new ArrayList<>()).add(message);
      }
    }
    return byTime.values().stream().flatMap(List::stream).toList();
  }

  private static Map<String, Out> play(
      Map<String, List<RoomMessage>> arriving, WatermarkStrategy<RoomMessage> clock)
      throws Exception {
    StreamExecutionEnvironment flink =
        StreamExecutionEnvironment.getExecutionEnvironment(Fleet.settings());
    flink.setParallelism(1);
    ProtocolFiles files = ProtocolFiles.of(LIBRARY, WALK, BEGUN);
    DataStream<RoomMessage> messages =
        flink
            .fromData(
                TypeInformation.of(RoomMessage.class),
                together(arriving).toArray(new RoomMessage[0]))
            .assignTimestampsAndWatermarks(clock);
    FleetJob job =
        FleetJob.of(
            messages,
            flink.fromData(TypeInformation.of(ProtocolFiles.class), files),
            new LiveTests(List.of(files), SESSIONS, PlainTest.SILENCE));
    Map<String, Out> found = new HashMap<>();
    CloseableIterator<String> lines =
        job.answers()
            .map(a -> String.join("\t", "answer", a.test(), a.cause().name(), a.decision()))
            .union(
                job.refusals().map(r -> String.join("\t", "refusal", r.test(), r.code(), r.body())),
                job.records().map(record -> "record\t" + record))
            .executeAndCollect();
    try {
      lines.forEachRemaining(line -> sort(line, found));
    } finally {
      lines.close();
    }
    return found;
  }

  private static void sort(String line, Map<String, Out> found) {
    String[] parts = line.split("\t", 4);
    if (parts[0].equals("record")) {
      String text = line.substring("record\t".length());
      String test = TestRecord.parse("record", text).title().identity().orElseThrow();
      found.computeIfAbsent(test, id -> new Out()).records.add(text);
      return;
    }
    Out out = found.computeIfAbsent(parts[1], id -> new Out());
    if (parts[0].equals("refusal")) {
      out.codes.add(parts[2]);
      out.refused.add(parts[3]);
    } else {
      out.answers.add(parts[3]);
      if (FleetAnswer.Cause.valueOf(parts[2]) == FleetAnswer.Cause.TOLD) {
        out.told.add(parts[3]);
      }
    }
  }
}
