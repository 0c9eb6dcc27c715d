package org.gradus.bundled;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Random;
import org.gradus.history.Journal;
import org.gradus.library.Library;
import org.gradus.session.Event;
import org.gradus.session.Session;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A process that writes journals is killed; whatever it had acknowledged is there afterwards. */
class JournalKilledTest {

  // Each journal of a killed writer is cut off at a point of its own: it writes at its own pace.
  private static final int KILL_POINTS = 200;
  private static final int JOURNALS = 25;
  private static final Library LIBRARY = Bundled.library();

  @Test
  void everyAcknowledgedEventIsReadBackAndTheTestGoesOn(@TempDir Path folder) throws Exception {
    long seed = System.nanoTime();
    System.out.println("journal kills with seed " + seed);
    Random random = new Random(seed);
    int taken = 0;
    for (int i = 0; taken < KILL_POINTS; i++) {
      assertThat(i).as("writers killed for %s journals", taken).isLessThan(KILL_POINTS);
      Path own = Files.createDirectory(folder.resolve("kill-" + i));
      int[] acknowledged = kill(own, random);
      for (int journal = 0; journal < JOURNALS; journal++) {
        if (acknowledged[journal] > 0) {
          takeUp(own.resolve("walk-" + journal + ".jsonl"), acknowledged[journal]);
          taken++;
        }
      }
    }
  }

  private static void takeUp(Path file, int acknowledged) {
    try (Journal.Reopened again = Journal.reopen(file, LIBRARY)) {
      Session session = again.session();
      // One event may have been safe on the disk before it could be acknowledged.
      List<Event> events = session.events();
      assertThat(events).hasSizeBetween(acknowledged, acknowledged + 1);
      for (int i = 2; i < events.size(); i++) {
        assertThat(events.get(i)).isEqualTo(JournalWriter.event(i - 1));
      }
      session.report(Duration.ofHours(23), "breathless", 0);
    }
    try (Journal.Reopened again = Journal.reopen(file, LIBRARY)) {
      assertThat(again.dropped()).isEmpty();
    }
  }

  /** Kills a writer at a random moment; gives the last acknowledged event of each journal. */
  private static int[] kill(Path folder, Random random) throws IOException, InterruptedException {
    Process writer =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                JournalWriter.class.getName(),
                folder.toString(),
                Integer.toString(JOURNALS))
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    int[] last = new int[JOURNALS];
    int told = 0;
    int kill = JOURNALS + random.nextInt(400);
    try (BufferedReader said =
        new BufferedReader(
            new InputStreamReader(writer.getInputStream(), StandardCharsets.US_ASCII))) {
      String line = said.readLine();
      while (line != null) {
        // The last line may be torn as well.
        if (line.matches("[0-9]+ [0-9]+")) {
          int space = line.indexOf(' ');
          int journal = Integer.parseInt(line.substring(0, space));
          last[journal] = Integer.parseInt(line.substring(space + 1));
        }
        if (++told >= kill && writer.isAlive()) {
          Thread.sleep(0, random.nextInt(1_000_000));
          writer.toHandle().destroyForcibly(); // leaves the stream open to read
        }
        line = said.readLine();
      }
    }
    writer.waitFor();
    return last;
  }
}
