package org.gradus.examples.fleet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.apache.flink.api.common.typeinfo.TypeInformation;
import org.apache.flink.configuration.Configuration;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.util.CloseableIterator;
import org.gradus.bundled.Bundled;
import org.gradus.library.Library;

/**
 * Plays generated tests through the fleet, on a cluster within this process, and counts what came
 * out. Gradus advises a trained person, who decides; it is not a medical device.
 */
public final class Fleet {

  static final List<String> PROTOCOLS = List.of("graded-walk-standard", "cycle-25w-steps");
  private static final int REGIONS = 4;
  private static final int SHOWN = 300;
  private static final long BEGUN = 1_800_000_000_000L;
  private static final double UNLIMITED = 1e9;

  private Fleet() {}

  /** Plays so many tests, or 500. */
  public static void main(String[] arguments) throws Exception {
    int tests = arguments.length == 0 ? 500 : Integer.parseInt(arguments[0]);
    Path folder = Files.createTempDirectory("fleet-");
    Library library = Bundled.library(PROTOCOLS.toArray(new String[0]));
    GeneratedTests generated = new GeneratedTests(1, tests, PROTOCOLS, 200, BEGUN);
    long messages = write(generated, folder, library);
    System.out.println(messages + " messages of " + tests + " tests in " + folder);

    StreamExecutionEnvironment flink =
        StreamExecutionEnvironment.getExecutionEnvironment(settings());
    FleetJob job = job(flink, folder, library);
    Map<String, Long> counts = new TreeMap<>();
    // Answers and refusals as one stream of lines, since a job is collected once.
    CloseableIterator<String> lines =
        job.answers()
            .map(FleetAnswer::line)
            .union(job.refusals().map(FleetRefusal::line))
            .executeAndCollect();
    try {
      lines.forEachRemaining(line -> count(line, counts));
    } finally {
      lines.close();
    }
    counts.forEach((kind, count) -> System.out.println(kind + " " + count));
  }

  /** Writes the logs of all regions and counts their messages. */
  static long write(GeneratedTests tests, Path folder, Library library) throws IOException {
    long messages = 0;
    for (int region = 0; region < REGIONS; region++) {
      List<RoomMessage> sent = tests.region(region, REGIONS, library);
      RegionLog.write(folder, region, sent);
      messages += sent.size();
    }
    return messages;
  }

  /** Settings under which a value that would be serialized by reflection is an error. */
  static Configuration settings() {
    return Configuration.fromMap(Map.of("pipeline.generic-types", "false"));
  }

  /** Live tests of the logs of a folder. */
  static FleetJob job(StreamExecutionEnvironment flink, Path folder, Library library)
      throws IOException {
    List<ProtocolFiles> protocols =
        PROTOCOLS.stream().map(id -> ProtocolFiles.of(library, id, BEGUN)).toList();
    return FleetJob.of(
        RegionLog.all(flink, folder, UNLIMITED),
        flink.fromData(TypeInformation.of(ProtocolFiles.class), protocols.get(0)),
        new LiveTests(protocols, 10_000, Duration.ofMinutes(10)));
  }

  private static void count(String line, Map<String, Long> counts) {
    if (line.startsWith("{\"test\": \"test-0\"")) {
      System.out.println(line.length() > SHOWN ? line.substring(0, SHOWN) + "..." : line);
    }
    counts.merge(kind(line), 1L, Long::sum);
  }

  // A decision says its kind, a refusal its code.
  private static String kind(String line) {
    String mark = "\"kind\": \"";
    int from = line.indexOf(mark);
    int code = line.indexOf("\"code\": \"");
    int begin = from < 0 ? code : from;
    return line.substring(begin + mark.length(), line.indexOf('"', begin + mark.length()));
  }
}
