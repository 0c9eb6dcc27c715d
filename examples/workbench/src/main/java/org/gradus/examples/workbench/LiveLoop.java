package org.gradus.examples.workbench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.gradus.session.Phase;
import org.gradus.session.Session;

/** Goes on with a test until it is over or left: takes what is typed, and each second a look. */
final class LiveLoop {

  private static final String END = "\u0004";

  private final Shelf shelf;
  private final double speed;

  LiveLoop(Shelf shelf, double speed) {
    this.shelf = shelf;
    this.speed = speed;
  }

  int run(Session session, Duration from) {
    Screen screen = new Screen(shelf.out(), Terminal.isWatched(), shelf.columns());
    screen.print("Gradus advises; you decide. Have your emergency plan ready. ? for help.");
    LiveTest live = new LiveTest(session, screen, new TestClock(speed, from));
    BlockingQueue<String> typed = reader();
    live.announce();
    while (session.phase() != Phase.ENDED && !live.isLeft()) {
      Optional<String> line = next(typed);
      if (line.filter(END::equals).isPresent()) {
        break;
      }
      line.ifPresentOrElse(live::typed, live::tick);
    }
    screen.entered();
    live.result();
    return Workbench.WELL;
  }

  // Reading blocks, and the clock must go on.
  private static BlockingQueue<String> reader() {
    BlockingQueue<String> typed = new LinkedBlockingQueue<>();
    Thread thread =
        new Thread(
            () -> {
              try (BufferedReader in =
                  new BufferedReader(new InputStreamReader(System.in, StandardCharsets.UTF_8))) {
                in.lines().forEach(typed::add);
              } catch (IOException | UncheckedIOException e) {
                // The terminal is gone; the test is over.
              } finally {
                typed.add(END);
              }
            },
            "terminal");
    thread.setDaemon(true);
    thread.start();
    return typed;
  }

  private static Optional<String> next(BlockingQueue<String> typed) {
    try {
      return Optional.ofNullable(typed.poll(1, TimeUnit.SECONDS));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return Optional.of(END);
    }
  }
}
