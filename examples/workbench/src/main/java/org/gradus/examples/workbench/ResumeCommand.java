package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gradus.history.Journal;
import org.gradus.session.Event;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.gradus.session.Times;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Parameters;

/** Resumes a recorded test. */
@Command(
    name = "resume",
    description = {
      "Resumes a recorded test that was cut off, and goes on recording it.",
      "The clock stands at the last event; type a time such as 6:00 to set it."
    })
final class ResumeCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Mixin private Pace pace = new Pace();

  @Parameters(paramLabel = "RECORD", description = "The file of the record.")
  private Path file = Path.of("");

  @Override
  public Integer call() {
    CommandContext.recordText(file);
    try (Journal.Reopened again = Journal.reopen(file, context.library())) {
      Session session = again.session();
      again.dropped().ifPresent(cut -> context.line("damaged, so left out: " + cut));
      if (session.phase() == Phase.ENDED) {
        context.complain(
            "the test in " + file + " is over; workbench report " + file + " shows it");
        return Workbench.FOUND;
      }
      Duration last =
          session.events().stream().map(Event::at).reduce((a, b) -> b).orElse(Duration.ZERO);
      context.line(
          "resumed at " + Times.clock(last) + "; type a time such as 6:00 to set the clock");
      int code = new LiveLoop(context, pace.speed()).run(session, last, Optional.of(file));
      context.line("record: " + file);
      return code;
    }
  }
}
