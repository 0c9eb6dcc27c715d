package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.atomic.AtomicBoolean;
import org.gradus.history.Journal;
import org.gradus.history.TestRecord;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** An interrupt neither loses an event nor ends a journal, and the thread stays interrupted. */
class JournalInterruptedTest {

  private static final int EVENTS = 400;

  @TempDir private Path folder;

  private Path file() {
    return folder.resolve("walk.jsonl");
  }

  @Test
  void interruptsAtAnyMomentLoseNothing() throws Exception {
    long seed = System.nanoTime();
    System.out.println("journal interrupts with seed " + seed);
    Thread writer = Thread.currentThread();
    AtomicBoolean done = new AtomicBoolean();
    Thread interrupter = new Thread(() -> interrupt(writer, new Random(seed), done));
    int interrupted = 0;
    try (Journal journal = Journal.create(file(), WALK, ines(), Optional.empty())) {
      Session session = Walks.begun(journal);
      interrupter.start();
      for (int i = 1; i <= EVENTS; i++) {
        Event.Reported event = (Event.Reported) JournalWriter.event(i);
        int grade = event.grade().orElseThrow();
        assertThat(session.report(event.at(), event.sign(), grade).event()).isEqualTo(i + 2);
        interrupted += Thread.interrupted() ? 1 : 0;
      }
    } finally {
      done.set(true);
      while (interrupter.isAlive()) {
        Thread.onSpinWait();
      }
      Thread.interrupted();
    }
    assertThat(interrupted).isPositive();
    List<TestRecord.Entry> entries = TestRecord.parse("walk", Files.readString(file())).entries();
    assertThat(entries).hasSize(EVENTS + 2);
    for (int i = 1; i <= EVENTS; i++) {
      assertThat(entries.get(i + 1).event()).isEqualTo(JournalWriter.event(i));
    }
  }

  private static void interrupt(Thread writer, Random random, AtomicBoolean done) {
    while (!done.get()) {
      writer.interrupt();
      for (int i = random.nextInt(2000); i > 0; i--) {
        Thread.onSpinWait();
      }
    }
  }

  @Test
  void anInterruptedThreadCreatesWritesReopensAndCloses() throws IOException {
    Thread.currentThread().interrupt();
    try (Journal journal = Journal.create(file(), WALK, ines(), Optional.empty())) {
      Walks.begun(journal);
    }
    assertThat(Thread.interrupted()).isTrue();
    Files.writeString(file(), "{\"n\": 3, torn", StandardOpenOption.APPEND);
    Thread.currentThread().interrupt();
    try (Journal.Reopened again = Journal.reopen(file(), Bundled.library())) {
      assertThat(again.dropped()).isPresent();
      again.session().report(java.time.Duration.ofSeconds(1), "breathless", 1);
    }
    assertThat(Thread.interrupted()).isTrue();
    assertThat(TestRecord.parse("walk", Files.readString(file())).entries()).hasSize(3);
  }
}
