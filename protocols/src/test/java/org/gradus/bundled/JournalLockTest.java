package org.gradus.bundled;

import static java.nio.charset.StandardCharsets.US_ASCII;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.diagnostic.RecordRefused;
import org.gradus.history.Journal;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A journal has one opener at a time: among the threads of a process, and among processes. */
class JournalLockTest {

  private static final Library LIBRARY = Bundled.library();

  @TempDir private Path folder;

  private static Journal create(Path file) {
    return Journal.create(file, WALK, ines(), Optional.empty());
  }

  private static void isHeldBy(String holder, ThrowingCallable opener) {
    assertThatThrownBy(opener)
        .isInstanceOfSatisfying(
            JournalFailed.class,
            failed -> {
              assertThat(failed.code()).isEqualTo(Code.G610);
              assertThat(failed.arguments().get(1)).contains(holder);
            });
  }

  private List<String> files() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(path -> path.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void aSecondOpenerInTheProcessIsRefusedUntilTheFirstCloses() throws IOException {
    Path file = folder.resolve("walk.jsonl");
    String self = "this process " + ProcessHandle.current().pid();
    try (Journal first = create(file)) {
      Session session = Walks.begun(first);
      isHeldBy(self, () -> Journal.reopen(file, LIBRARY));
      isHeldBy(self, () -> create(file));
      assertThat(session.report(Duration.ofSeconds(1), "breathless", 1).event()).isEqualTo(3);
    }
    assertThat(files()).containsExactly("walk.jsonl");
    try (Journal.Reopened second = Journal.reopen(file, LIBRARY)) {
      assertThat(second.session().events()).hasSize(3);
      isHeldBy(self, () -> Journal.reopen(file, LIBRARY));
    }
    assertThat(files()).containsExactly("walk.jsonl");
  }

  @Test
  void everyPathToTheFileIsTheSame() throws IOException {
    Path file = folder.resolve("walk.jsonl");
    Path link = Files.createSymbolicLink(folder.resolve("link.jsonl"), file);
    Path here = Files.createSymbolicLink(folder.resolve("here"), folder);
    try (Journal first = create(file)) {
      Walks.begun(first);
      isHeldBy("this process", () -> Journal.reopen(link, LIBRARY));
      isHeldBy("this process", () -> Journal.reopen(here.resolve("walk.jsonl"), LIBRARY));
      isHeldBy("this process", () -> create(here.resolve("walk.jsonl")));
    }
  }

  @Test
  void aRefusedOpenerLeavesNothingLocked() throws IOException {
    Path damaged = Files.writeString(folder.resolve("damaged.jsonl"), "{}\n");
    for (int i = 0; i < 2; i++) {
      assertThatThrownBy(() -> Journal.reopen(damaged, LIBRARY))
          .isInstanceOfSatisfying(
              RecordRefused.class,
              refused ->
                  assertThat(refused)
                      .hasMessage(
                          "G609: line 1 of "
                              + damaged
                              + " is damaged; use another copy of the record"));
    }
    assertThat(files()).containsExactly("damaged.jsonl");
  }

  @Test
  void anotherProcessIsRefusedAndNamedUntilItIsKilled() throws Exception {
    Path file = folder.resolve("walk.jsonl");
    Process holder = JournalOpener.process("create", file.toString()).start();
    try {
      assertThat(lines(holder).readLine()).isEqualTo("3");
      isHeldBy("process " + holder.pid() + ", started ", () -> Journal.reopen(file, LIBRARY));
    } finally {
      holder.destroyForcibly().waitFor();
    }
    assertThat(files()).containsExactly("walk.jsonl", "walk.jsonl.lock");
    try (Journal.Reopened again = Journal.reopen(file, LIBRARY)) {
      assertThat(again.session().events()).hasSize(3);
    }
    assertThat(files()).containsExactly("walk.jsonl");
  }

  @Test
  void neitherReadingTheFileNorASecondOpenerReleasesIt() throws Exception {
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = create(file)) {
      Walks.begun(journal);
      assertThat(TestRecord.parse("walk", Files.readString(file)).entries()).hasSize(2);
      isHeldBy("this process", () -> Journal.reopen(file, LIBRARY));
      assertThat(reopenedByAnother(file)).isEqualTo("G610");
    }
    assertThat(reopenedByAnother(file)).isEqualTo("opened with 2");
  }

  private static String reopenedByAnother(Path file) throws IOException {
    return lines(JournalOpener.process("reopen", file.toString()).start()).readLine();
  }

  private static BufferedReader lines(Process process) {
    return new BufferedReader(new InputStreamReader(process.getInputStream(), US_ASCII));
  }

  @Test
  void whateverIsAcknowledgedToOpenersInTurnIsReadBack() throws Exception {
    Path file = folder.resolve("walk.jsonl");
    try (Journal journal = create(file)) {
      Walks.begun(journal);
    }
    int turns = 15;
    List<Process> others = new ArrayList<>();
    for (int i = 0; i < 2; i++) {
      others.add(JournalOpener.process("turns", file.toString(), "" + turns).start());
    }
    ExecutorService threads = Executors.newFixedThreadPool(3);
    List<Future<?>> own = new ArrayList<>();
    for (int i = 0; i < 3; i++) {
      own.add(
          threads.submit(
              () -> {
                JournalOpener.turns(file, turns);
                return turns;
              }));
    }
    for (Future<?> one : own) {
      one.get();
    }
    threads.shutdown();
    List<Integer> acknowledged = new ArrayList<>();
    for (Process other : others) {
      lines(other).lines().map(Integer::valueOf).forEach(acknowledged::add);
      assertThat(other.waitFor()).isZero();
    }
    TestRecord record = TestRecord.parse("walk", Files.readString(file));
    assertThat(record.entries()).hasSize(2 + 5 * turns);
    assertThat(acknowledged).hasSize(2 * turns).doesNotHaveDuplicates();
    assertThat(record.entries().stream().map(TestRecord.Entry::number).toList())
        .isEqualTo(IntStream.rangeClosed(1, 2 + 5 * turns).boxed().toList());
    assertThat(files()).containsExactly("walk.jsonl");
  }
}
