package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gradus.capacity.Capacity;
import org.gradus.exchange.table.TableRefused;
import org.gradus.exchange.table.TestTable;
import org.gradus.history.TestRecord;
import org.gradus.session.Phase;
import org.gradus.session.Session;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Makes a record of a test that was written on paper. */
@Command(
    name = "enter",
    description = {
      "Makes a record of a finished test from a table (CSV), such as one that was kept on paper.",
      "Every problem of the table is shown with its line and column; nothing is written then."
    })
final class EnterCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(paramLabel = "TABLE", description = "The file of the table.")
  private Path table = Path.of("");

  @Option(
      names = "--record",
      required = true,
      paramLabel = "FILE",
      description = "The new file of the record.")
  private Path record = Path.of("");

  @Option(
      names = "--identity",
      paramLabel = "WORDS",
      description = "Whose test it is, by your own words; it stands in the record and its report.")
  private @Nullable String identity;

  @Override
  public Integer call() {
    Session session;
    try {
      session = TestTable.read(CommandContext.read(table).text(), context.library());
    } catch (TableRefused refused) {
      refused.problems().forEach(problem -> context.complain(problem.toString()));
      return Workbench.REFUSED;
    }
    OutputFile.create(record, TestRecord.of(session, Optional.ofNullable(identity)).text());
    context.line(
        session.events().size()
            + " events; the record: "
            + record
            + (session.outcome().phase() == Phase.ENDED ? "" : "; the test is not over in it"));
    Capacity.of(session.outcome())
        .headline()
        .ifPresent(best -> context.line("aerobic capacity: " + best.vo2max().rounded(1)));
    return Workbench.WELL;
  }
}
