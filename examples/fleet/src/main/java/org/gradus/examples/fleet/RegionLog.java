package org.gradus.examples.fleet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.apache.flink.api.common.eventtime.WatermarkStrategy;
import org.apache.flink.api.common.typeinfo.TypeInformation;
import org.apache.flink.api.connector.source.SourceReaderContext;
import org.apache.flink.api.connector.source.util.ratelimit.RateLimiterStrategy;
import org.apache.flink.connector.datagen.source.DataGeneratorSource;
import org.apache.flink.connector.datagen.source.GeneratorFunction;
import org.apache.flink.streaming.api.datastream.DataStream;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;

/**
 * What the rooms of a region have sent, one {@linkplain RoomMessage#line line} for each message
 * about in the order of time, in a file. It is read again from any line on after a failure. In a
 * real fleet a partition of a durable log is in its place.
 */
final class RegionLog implements GeneratorFunction<Long, RoomMessage> {

  private static final long serialVersionUID = 1L;
  private static final String BEGINS = "region-";

  // Time goes on for the tests of a region only when no message should arrive from before it. One
  // that does all the same is still taken: it may then find an answer given out without it.
  private static final Duration DISORDER = Duration.ofMinutes(2);

  private final String file;
  private transient List<RoomMessage> messages = List.of();

  private RegionLog(Path file) {
    this.file = file.toString();
  }

  /** Writes the log of a region into a folder. */
  static void write(Path folder, int region, List<RoomMessage> messages) throws IOException {
    Files.write(
        folder.resolve(BEGINS + region + ".log"),
        messages.stream().map(RoomMessage::line).toList());
  }

  /**
   * The messages of all regions of a folder.
   *
   * @param rate at most so many messages a second of each region
   */
  static DataStream<RoomMessage> all(StreamExecutionEnvironment flink, Path folder, double rate)
      throws IOException {
    List<DataStream<RoomMessage>> regions = new ArrayList<>();
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file :
          files
              .filter(file -> file.getFileName().toString().startsWith(BEGINS))
              .sorted()
              .toList()) {
        regions.add(new RegionLog(file).stream(flink, rate));
      }
    }
    return regions.stream()
        .reduce((some, more) -> some.union(more))
        .orElseThrow(() -> new IOException("no " + BEGINS + "*.log in " + folder));
  }

  private DataStream<RoomMessage> stream(StreamExecutionEnvironment flink, double rate)
      throws IOException {
    String name = String.valueOf(Path.of(file).getFileName());
    DataGeneratorSource<RoomMessage> source =
        new DataGeneratorSource<>(
            this,
            read().size(),
            RateLimiterStrategy.perSecond(rate),
            TypeInformation.of(RoomMessage.class));
    WatermarkStrategy<RoomMessage> clock =
        WatermarkStrategy.<RoomMessage>forBoundedOutOfOrderness(DISORDER)
            .withTimestampAssigner((message, before) -> message.time());
    return flink.fromSource(source, clock, name).setParallelism(1).uid(name);
  }

  private List<RoomMessage> read() throws IOException {
    return Files.readAllLines(Path.of(file)).stream().map(RoomMessage::read).toList();
  }

  @Override
  public void open(SourceReaderContext context) throws IOException {
    messages = read();
  }

  @Override
  public RoomMessage map(Long index) {
    return messages.get(index.intValue());
  }
}
