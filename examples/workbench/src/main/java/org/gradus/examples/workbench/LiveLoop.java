package org.gradus.examples.workbench;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.gradus.session.Session;

/** Goes on with a test until it is over or left: takes each line, and each second looks again. */
final class LiveLoop {

  private final CommandContext context;
  private final double speed;

  LiveLoop(CommandContext context, double speed) {
    this.context = context;
    this.speed = speed;
  }

  /**
   * Runs a test.
   *
   * @param from the time the clock shows first
   * @param record the file it is recorded in, if it is
   * @return the exit code
   */
  int run(Session session, Duration from, Optional<Path> record) {
    Screen screen =
        new Screen(context.out(), context.terminal(), Terminal.isWatched(), context.columns());
    screen.print("Gradus advises; you decide. Have your emergency plan ready. Type ? for help.");
    if (record.isEmpty() && Terminal.isWatched()) {
      screen.print("This test is not recorded. save FILE keeps what has happened so far.");
    }
    LivePrompt live = new LivePrompt(session, screen, new TestClock(speed, from), record);
    TypedLines typed = TypedLines.of(context.in(), StandardCharsets.UTF_8);
    live.announce();
    while (!live.isOver() && !live.isLeft()) {
      TypedLines.Next next = typed.next(1, TimeUnit.SECONDS);
      if (next instanceof TypedLines.End end) {
        end.problem().ifPresent(screen::print);
        live.inputEnded();
        live.result();
        return Workbench.FOUND;
      } else if (next instanceof TypedLines.Line line) {
        live.typed(line.text());
      } else {
        live.tick();
      }
    }
    live.result();
    if (live.isOver() && !live.isLeft() && live.hasUnsavedEvents()) {
      live.offerToSave();
      keep(live, typed);
    }
    return Workbench.WELL;
  }

  // A test that is over and recorded nowhere is not lost because the program ends by itself.
  private static void keep(LivePrompt live, TypedLines typed) {
    while (!live.isLeft() && live.hasUnsavedEvents()) {
      TypedLines.Next next = typed.next(1, TimeUnit.SECONDS);
      if (next instanceof TypedLines.End) {
        return;
      } else if (next instanceof TypedLines.Line line) {
        live.typed(line.text());
      }
    }
  }
}
