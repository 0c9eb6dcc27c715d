package org.gradus.bundled;

import static org.gradus.bundled.Walks.WALK;
import static org.gradus.bundled.Walks.ines;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.gradus.diagnostic.Code;
import org.gradus.diagnostic.JournalFailed;
import org.gradus.history.Journal;
import org.gradus.library.Library;
import org.gradus.session.Event;
import org.gradus.session.Session;

/**
 * Another process that opens a journal. It prints what comes of it, a line for each acknowledged
 * event.
 */
final class JournalOpener {

  private JournalOpener() {}

  /**
   * Opens a journal in another process.
   *
   * @param arguments {@code create FILE}: creates it, tells three events, and holds it until it is
   *     killed; {@code reopen FILE}: tries once; {@code turns FILE N}: opens it N times and tells
   *     one event each time; {@code fill FILE}: creates it and tells events until one is refused
   */
  public static void main(String[] arguments) throws InterruptedException {
    Path file = Path.of(arguments[1]);
    switch (arguments[0]) {
      case "create" -> create(file);
      case "reopen" -> reopen(file);
      case "turns" -> turns(file, Integer.parseInt(arguments[2]));
      default -> fill(file);
    }
  }

  static ProcessBuilder process(String... arguments) {
    ProcessBuilder builder =
        new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-XX:+UseSerialGC",
            "-XX:-UsePerfData",
            "-cp",
            System.getProperty("java.class.path"),
            JournalOpener.class.getName());
    builder.command().addAll(List.of(arguments));
    return builder.redirectError(ProcessBuilder.Redirect.INHERIT);
  }

  private static void create(Path file) throws InterruptedException {
    try (Journal journal = Journal.create(file, WALK, ines(), Optional.empty())) {
      Session session = Walks.begun(journal);
      System.out.println(session.report(Duration.ofSeconds(1), "breathless", 1).event());
      Thread.sleep(Duration.ofHours(1).toMillis());
    }
  }

  private static void reopen(Path file) {
    try (Journal.Reopened again = Journal.reopen(file, Bundled.library())) {
      System.out.println("opened with " + again.session().events().size());
    } catch (JournalFailed failed) {
      System.out.println(failed.code());
    }
  }

  /** Opens a journal in turn with others, and tells one event each time; gives their numbers. */
  static void turns(Path file, int turns) throws InterruptedException {
    Library library = Bundled.library();
    int told = 0;
    while (told < turns) {
      try (Journal.Reopened again = Journal.reopen(file, library)) {
        System.out.println(oneMore(again.session()));
        told++;
      } catch (JournalFailed failed) {
        if (failed.code() != Code.G610) {
          throw failed;
        }
        Thread.sleep(1);
      }
    }
  }

  private static int oneMore(Session session) {
    Duration last =
        session.events().stream().map(Event::at).reduce((a, b) -> b).orElse(Duration.ZERO);
    return session.report(last.plusSeconds(1), "breathless", 1).event();
  }

  private static void fill(Path file) {
    try (Journal journal = Journal.create(file, WALK, ines(), Optional.empty())) {
      Session session = Walks.begun(journal);
      while (true) {
        System.out.println(oneMore(session));
      }
    } catch (JournalFailed failed) {
      System.out.println(failed.code());
    }
  }
}
