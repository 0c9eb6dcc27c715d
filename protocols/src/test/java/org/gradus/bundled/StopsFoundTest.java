package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.bundled.Walks.ines;
import static org.gradus.bundled.Walks.verdict;
import static org.gradus.session.Readings.heartRate;
import static org.gradus.session.Times.at;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import org.gradus.diagnostic.SourceFile;
import org.gradus.library.Library;
import org.gradus.session.Decision;
import org.gradus.session.Session;
import org.gradus.session.Verdict;
import org.junit.jupiter.api.Test;

/**
 * Files in {@code found/} whose stops were lost or came and went: found by an adversary's
 * generator.
 */
class StopsFoundTest {

  private static Session walking(String id) {
    List<SourceFile> files = new ArrayList<>(Bundled.files());
    try (InputStream file =
        Objects.requireNonNull(StopsFoundTest.class.getResourceAsStream("found/" + id + ".yaml"))) {
      String text = new String(file.readAllBytes(), StandardCharsets.UTF_8);
      files.add(SourceFile.of(id + ".yaml", text));
    } catch (IOException failure) {
      throw new UncheckedIOException(failure);
    }
    Session session = Walks.ready(Library.of(files).protocol(id), ines());
    session.follow(session.decide(at("0:00")));
    return session;
  }

  @Test
  void aVerdictDoesNotHangOnTheSecondInWhichItIsAskedForWhereTwoHoldsAreOfUnlikeLength() {
    Session session = walking("two-holds");
    session.record(at("3:10"), heartRate(100));
    for (String moment : List.of("3:11", "3:31", "4:01", "4:29")) {
      assertThat(session.decide(at(moment)).verdict())
          .as(moment)
          .isInstanceOf(Verdict.Measure.class);
    }
    for (String moment : List.of("4:30", "4:31", "5:01", "5:31", "6:01", "20:00")) {
      assertThat(verdict(session.decide(at(moment)))).as(moment).isEqualTo("STOP undecided");
    }
  }

  @Test
  void aStopForWantOfADecisionStaysUntilItIsFollowed() {
    Session session = walking("two-holds");
    session.record(at("3:10"), heartRate(100));
    Decision late = session.record(at("6:00"), heartRate(102));
    assertThat(verdict(late)).isEqualTo("STOP undecided");
    // A finish of the clock comes to hold long after the time for the decision was over.
    assertThat(verdict(session.decide(at("25:00")))).isEqualTo("STOP undecided");
    session.override(at("6:10"), new Verdict.Hold(at("8:00")), "the watch was lost");
    assertThat(session.decide(at("6:10")).verdict()).isInstanceOf(Verdict.Continue.class);
  }

  @Test
  void aStopBetweenTwoSecondsAndOneBeyondTheWaitAreKept() {
    Session session = walking("stop-between-seconds");
    assertThat(session.decide(at("1:00")).verdict()).isInstanceOf(Verdict.Continue.class);
    for (Duration moment : List.of(Duration.ofMillis(60_200), at("1:01"), at("2:59"))) {
      assertThat(verdict(session.decide(moment))).isEqualTo("STOP between");
    }
    session.override(at("1:10"), new Verdict.Hold(at("4:00")), "to see what follows");
    assertThat(verdict(session.decide(at("20:00")))).isEqualTo("STOP after-the-wait");
  }
}
