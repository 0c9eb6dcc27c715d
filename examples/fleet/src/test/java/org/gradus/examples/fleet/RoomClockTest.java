package org.gradus.examples.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionStage;
import org.apache.flink.api.common.typeinfo.TypeInformation;
import org.apache.flink.api.connector.source.lib.NumberSequenceSource.NumberSequenceSplit;
import org.apache.flink.api.connector.source.util.ratelimit.RateLimiter;
import org.apache.flink.connector.datagen.source.DataGeneratorSource;
import org.apache.flink.streaming.api.environment.StreamExecutionEnvironment;
import org.apache.flink.util.CloseableIterator;
import org.gradus.bundled.Bundled;
import org.gradus.examples.fleet.FleetAnswer.Cause;
import org.gradus.history.Json;
import org.gradus.library.Library;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** A decision that changes by itself is given out although no room says anything any more. */
class RoomClockTest {

  private static final String WALK = "graded-walk-standard";
  private static final Library LIBRARY = Bundled.library(WALK);
  private static final int BEGUN = 3;

  /** Lets so many messages through, and none after them; the stream does not end. */
  private static final class Silent implements RateLimiter<NumberSequenceSplit> {

    private int left = BEGUN;

    @Override
    public CompletionStage<Void> acquire(int events) {
      left -= events;
      return left >= 0 ? CompletableFuture.completedFuture(null) : new CompletableFuture<>();
    }
  }

  // Without such a clock it would wait for ever.
  @Test
  @Timeout(120)
  void aSilentRoomIsAskedWhenItIsTime() throws Exception {
    Duration change = change(messages(0));
    // The first change lies a second ahead of the clock on the wall.
    long opened = System.currentTimeMillis() - change.toMillis() + 1000;
    List<String> lines = messages(opened).stream().map(RoomMessage::line).toList();
    ArrayList<String> sent = new ArrayList<>(lines);
    StreamExecutionEnvironment flink =
        StreamExecutionEnvironment.getExecutionEnvironment(Fleet.settings());
    flink.setParallelism(1);
    DataGeneratorSource<RoomMessage> source =
        new DataGeneratorSource<>(
            index -> RoomMessage.read(sent.get(index.intValue())),
            Long.MAX_VALUE,
            parallelism -> new Silent(),
            TypeInformation.of(RoomMessage.class));
    ProtocolFiles files = ProtocolFiles.of(LIBRARY, WALK, 0);
    FleetJob job =
        FleetJob.of(
            flink.fromSource(
                source, RoomClock.of(System::currentTimeMillis, Duration.ZERO), "rooms"),
            flink.fromData(TypeInformation.of(ProtocolFiles.class), files),
            new LiveTests(List.of(files), 10, Duration.ofHours(1)));
    List<FleetAnswer> answers = new ArrayList<>();
    CloseableIterator<FleetAnswer> found = job.answers().executeAndCollect();
    try {
      while (answers.size() <= BEGUN) {
        answers.add(found.next());
      }
    } finally {
      found.close();
    }
    FleetAnswer last = answers.get(BEGUN);
    assertThat(last.cause()).isEqualTo(Cause.TIME);
    assertThat(last.time()).isEqualTo(opened + change.toMillis());
  }

  private static List<RoomMessage> messages(long opened) {
    GeneratedTests tests = new GeneratedTests(7, 1, List.of(WALK), 20, opened);
    List<RoomMessage> all = tests.messages(0, LIBRARY);
    assertThat(all).hasSizeGreaterThan(BEGUN);
    return all.subList(0, BEGUN);
  }

  // When the decision changes first, once what was sent has been told.
  private static Duration change(List<RoomMessage> sent) {
    Session session = Session.open(LIBRARY.protocol(WALK), Json.toPerson(sent.get(0).body()));
    Decision decision = session.decide(Duration.ZERO);
    for (RoomMessage message : sent.subList(1, BEGUN)) {
      decision = session.tell(Json.toEvent(message.body()));
    }
    return decision.changesAt().orElseThrow();
  }
}
