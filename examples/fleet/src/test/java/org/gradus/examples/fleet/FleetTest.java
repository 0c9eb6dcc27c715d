package org.gradus.examples.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.apache.flink.api.common.serialization.SimpleStringEncoder;
import org.apache.flink.api.common.typeinfo.TypeInformation;
import org.apache.flink.configuration.Configuration;
import org.apache.flink.connector.file.sink.FileSink;
import org.apache.flink.core.execution.JobClient;
import org.apache.flink.core.execution.SavepointFormatType;
import org.apache.flink.streaming.api.datastream.DataStream;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.streaming.api.functions.sink.filesystem.rollingpolicies.OnCheckpointRollingPolicy;
import org.gradus.bundled.Bundled;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tests in a fleet are answered as on a plain session, whatever happens to the machines. */
class FleetTest {

  private static final String WALK = "graded-walk-standard";
  private static final String CYCLE = "cycle-25w-steps";
  private static final long BEGUN = 1_800_000_000_000L;
  private static final Library LIBRARY = Bundled.library(WALK, CYCLE);
  private static final int REGIONS = 4;

  @TempDir private Path folder;

  @Test
  void answersAsPlainSessionsThroughFailuresAndARestoreWithMoreTasks() throws Exception {
    GeneratedTests tests = new GeneratedTests(7, 2_000, List.of(WALK, CYCLE), 6, BEGUN);
    Map<String, List<RoomMessage>> arriving = new LinkedHashMap<>();
    int messages = write(tests, arriving);
    Mishaps.PASSED.set(0);
    Mishaps.FAILED.set(0);

    // Before the restore nearly every message finds its session displaced by others.
    JobClient before =
        start(Map.of(), 2, 3, broken(), Set.of(messages / 8, messages / 3, messages / 2));
    while (Mishaps.PASSED.get() < messages) {
      TimeUnit.MILLISECONDS.sleep(20);
    }
    String savepoint = stop(before);
    int passed = Mishaps.PASSED.get();
    int answeredBefore = lines("answers").size();

    JobClient after =
        start(
            Map.of(
                "execution.state-recovery.path",
                savepoint,
                "execution.state-recovery.ignore-unclaimed-state",
                "true"),
            3,
            1_000,
            changed(),
            Set.of(passed + messages / 4, passed + messages / 2));
    after.getJobExecutionResult().get(200, TimeUnit.SECONDS);

    assertThat(Mishaps.FAILED).hasValue(5);
    assertThat(answeredBefore).isBetween(1, lines("answers").size() - 1);
    compare(arriving);
  }

  // While a task starts again there can be no savepoint.
  private String stop(JobClient job) throws Exception {
    String savepoints = folder.resolve("savepoints").toUri().toString();
    ExecutionException last = new ExecutionException(new IllegalStateException("not tried"));
    for (int i = 0; i < 20; i++) {
      try {
        return job.stopWithSavepoint(false, savepoints, SavepointFormatType.CANONICAL)
            .get(60, TimeUnit.SECONDS);
      } catch (ExecutionException starting) {
        last = starting;
        TimeUnit.MILLISECONDS.sleep(200);
      }
    }
    throw last;
  }

  // In every fifth test some readings overtake each other, or a verdict that was followed.
  private int write(GeneratedTests tests, Map<String, List<RoomMessage>> arriving)
      throws IOException {
    int messages = 0;
    Path logs = Files.createDirectory(folder.resolve("logs"));
    for (int region = 0; region < REGIONS; region++) {
      List<RoomMessage> sent = tests.region(region, REGIONS, LIBRARY);
      Map<String, List<RoomMessage>> byTest = new LinkedHashMap<>();
      sent.forEach(
          message -> byTest.computeIfAbsent(message.test(), id -> new ArrayList<>()).add(message));
      List<RoomMessage> log = new ArrayList<>();
      Map<String, Integer> next = new HashMap<>();
      byTest.values().stream()
          .filter(list -> list.get(0).test().hashCode() % 5 == 0)
          .forEach(FleetTest::overtake);
      for (RoomMessage message : sent) {
        int index = next.merge(message.test(), 1, Integer::sum) - 1;
        log.add(byTest.getOrDefault(message.test(), List.of()).get(index));
      }
      RegionLog.write(logs, region, log);
      arriving.putAll(byTest);
      messages += log.size();
    }
    return messages;
  }

  private static void overtake(List<RoomMessage> messages) {
    for (int i = 2; i + 1 < messages.size(); i += 3) {
      if (messages.get(i + 1).time() - messages.get(i).time() < 100_000) {
        Collections.swap(messages, i, i + 1);
      }
    }
  }

  private static ProtocolFiles edited(String before, String after) {
    Map<String, String> files = new TreeMap<>(ProtocolFiles.of(LIBRARY, WALK, BEGUN).files());
    files.replaceAll((name, text) -> text.replace(before, after));
    assertThat(files).isNotEqualTo(ProtocolFiles.of(LIBRARY, WALK, BEGUN).files());
    return new ProtocolFiles(WALK, BEGUN, files);
  }

  private static ProtocolFiles broken() {
    return edited("steady and high_enough", "steady and heart_rate >= 135 mmHg");
  }

  private static ProtocolFiles changed() {
    return edited(
        "value: 5 bpm\n    range: 4 bpm to 6 bpm", "value: 4 bpm\n    range: 4 bpm to 6 bpm");
  }

  private JobClient start(
      Map<String, String> more,
      int tasks,
      int sessionsInMemory,
      ProtocolFiles published,
      Set<Integer> fails)
      throws Exception {
    Map<String, String> settings = new HashMap<>(more);
    settings.put("pipeline.generic-types", "false");
    settings.put("execution.checkpointing.interval", "300 ms");
    settings.put("execution.checkpointing.dir", folder.resolve("checkpoints").toUri().toString());
    settings.put("restart-strategy.type", "fixed-delay");
    settings.put("restart-strategy.fixed-delay.attempts", "20");
    settings.put("restart-strategy.fixed-delay.delay", "10 ms");
    StreamExecutionEnvironment flink =
        StreamExecutionEnvironment.getExecutionEnvironment(Configuration.fromMap(settings));
    flink.setParallelism(tasks);
    DataStream<RoomMessage> messages = RegionLog.all(flink, folder.resolve("logs"), 1e6);
    DataStream<ProtocolFiles> protocols =
        flink
            .fromData(TypeInformation.of(ProtocolFiles.class), published)
            .uid("protocols-" + tasks);
    List<ProtocolFiles> first =
        Stream.of(WALK, CYCLE).map(id -> ProtocolFiles.of(LIBRARY, id, BEGUN)).toList();
    FleetJob job =
        FleetJob.of(
            messages
                .map(new Mishaps<RoomMessage>(fails))
                .returns(RoomMessage.class)
                .setParallelism(1),
            protocols,
            new LiveTests(first, sessionsInMemory, PlainTest.SILENCE));
    keep(
        job.answers()
            .map(new Mishaps<FleetAnswer>(fails))
            .returns(FleetAnswer.class)
            .map(FleetAnswer::line),
        "answers");
    keep(job.refusals().map(FleetRefusal::line), "refusals");
    keep(job.records(), "records");
    return flink.executeAsync();
  }

  private void keep(DataStream<String> lines, String name) {
    FileSink<String> sink =
        FileSink.forRowFormat(
                new org.apache.flink.core.fs.Path(folder.resolve(name).toUri()),
                new SimpleStringEncoder<String>())
            .withRollingPolicy(OnCheckpointRollingPolicy.build())
            .build();
    lines.sinkTo(sink).uid(name);
  }

  // Files that are not yet committed begin with a dot.
  private List<String> lines(String name) throws IOException {
    List<String> lines = new ArrayList<>();
    try (Stream<Path> files = Files.walk(folder.resolve(name))) {
      for (Path file : files.filter(Files::isRegularFile).sorted().toList()) {
        if (!file.getFileName().toString().startsWith(".")) {
          lines.addAll(Files.readAllLines(file));
        }
      }
    }
    return lines;
  }

  private static final Pattern ANSWER =
      Pattern.compile(
          "\\{\"test\": \"([^\"]*)\", \"protocol\": \"([^\"]*)\", \"time\": \\d+, \"cause\": \"(\\w+)\","
              + " \"decision\": (.*)}");

  private void compare(Map<String, List<RoomMessage>> arriving) throws IOException {
    Map<String, List<String>> decisions = new HashMap<>();
    Map<String, Set<String>> versions = new HashMap<>();
    for (String line : lines("answers")) {
      Matcher answer = ANSWER.matcher(line);
      assertThat(answer.matches()).as(line).isTrue();
      decisions.computeIfAbsent(answer.group(1), id -> new ArrayList<>()).add(answer.group(4));
      versions.computeIfAbsent(answer.group(1), id -> new TreeSet<>()).add(answer.group(2));
    }
    Map<String, List<String>> refusals = new HashMap<>();
    for (String line : lines("refusals")) {
      String test = line.split("\"", -1)[3];
      refusals.computeIfAbsent(test, id -> new ArrayList<>()).add(code(line));
    }
    Map<String, String> records = records();
    // The broken file is refused once, and hurts no test.
    assertThat(refusals.remove(WALK)).containsExactly("G204");
    assertThat(refusals).isNotEmpty();
    assertThat(decisions).hasSameSizeAs(arriving);
    assertThat(records).hasSameSizeAs(arriving);
    Map<String, Protocol> protocols = new HashMap<>();
    for (ProtocolFiles files :
        List.of(
            ProtocolFiles.of(LIBRARY, WALK, BEGUN),
            ProtocolFiles.of(LIBRARY, CYCLE, BEGUN),
            changed())) {
      Protocol protocol = files.library().protocol(files.id());
      protocols.put(files.version(protocol), protocol);
    }
    Set<String> used = new TreeSet<>();
    arriving.forEach(
        (test, messages) -> {
          Set<String> version = versions.getOrDefault(test, Set.of());
          // A test keeps its version while others get the new one.
          assertThat(version).as(test).hasSize(1);
          used.addAll(version);
          Protocol protocol = Objects.requireNonNull(protocols.get(version.iterator().next()));
          PlainTest plain = new PlainTest(protocol, messages);
          assertThat(sorted(decisions.getOrDefault(test, List.of())))
              .as(test)
              .isEqualTo(sorted(plain.decisions));
          assertThat(sorted(refusals.getOrDefault(test, List.of())))
              .as(test)
              .isEqualTo(sorted(plain.refusals));
          assertThat(records.get(test)).as(test).isEqualTo(plain.record());
        });
    assertThat(used).hasSize(3);
  }

  // Each decision says its moment and how many events it rests on, so sorting loses no order.
  private static List<String> sorted(List<String> lines) {
    return lines.stream().sorted().toList();
  }

  private static String code(String line) {
    Matcher code = Pattern.compile("\"code\": \"(G\\d+)\"").matcher(line);
    assertThat(code.find()).as(line).isTrue();
    return code.group(1);
  }

  private Map<String, String> records() throws IOException {
    Map<String, String> records = new HashMap<>();
    String all = String.join("\n", lines("records"));
    for (String record : all.split("(?=\\{\"gradus\": \"record\")", -1)) {
      String text = record.strip() + "\n";
      String test = TestRecord.parse("record", text).title().identity().orElseThrow();
      assertThat(records.put(test, text)).as("twice: " + test).isNull();
    }
    return records;
  }
}
