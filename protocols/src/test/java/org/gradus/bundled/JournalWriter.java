package org.gradus.bundled;

import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.OptionalInt;
import org.gradus.history.Journal;
import org.gradus.session.Event;
import org.gradus.session.Session;

/**
 * Writes several journals at once until it is killed, and says each event that has been
 * acknowledged: the number of the journal and that of the event.
 */
final class JournalWriter {

  private JournalWriter() {}

  public static void main(String[] arguments) {
    Path folder = Path.of(arguments[0]);
    for (int i = 0; i < Integer.parseInt(arguments[1]); i++) {
      int journal = i;
      new Thread(() -> write(folder.resolve("walk-" + journal + ".jsonl"), journal)).start();
    }
  }

  /** What is told in a second, after the two events by which the test begins. */
  static Event event(int second) {
    return new Event.Reported("breathless", OptionalInt.of(second % 3), Duration.ofSeconds(second));
  }

  private static void write(Path file, int number) {
    try (Journal journal = Journal.create(file, WALK, ines(), Optional.empty())) {
      Session session = Walks.begun(journal);
      for (int second = 1; second < 80_000; second++) {
        int event = session.report(Duration.ofSeconds(second), "breathless", second % 3).event();
        System.out.println(number + " " + event);
      }
    }
  }
}
