package org.gradus.examples.workbench;

import java.io.PrintWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.gradus.diagnostic.FileRefused;
import org.gradus.diagnostic.GradusException;
import picocli.CommandLine;
import picocli.CommandLine.Command;

/**
 * The workbench. Exit codes: 0 all is well, 1 something was found, 2 the command was not
 * understood, 3 files were refused.
 */
@Command(
    name = "workbench",
    description = {
      "Tries out protocols of graded exercise tests.",
      "It is no medical device and advises a trained person, who decides.",
      "Medical clearance, an emergency plan, local rules and licensed practice come first."
    },
    synopsisSubcommandLabel = "COMMAND",
    footer = {
      "",
      "Every command takes --folder DIR to add protocols of your own.",
      "Exit codes: 0 well, 1 something found, 2 not understood, 3 files refused."
    },
    subcommands = {
      CheckCommand.class,
      ListCommand.class,
      ShowCommand.class,
      ReviewCommand.class,
      EdgesCommand.class,
      CasesCommand.class,
      TrialCommand.class,
      RunCommand.class,
      PlayCommand.class,
      ReportCommand.class
    })
public final class Workbench {

  static final int WELL = 0;
  static final int FOUND = 1;
  static final int REFUSED = 3;

  private Workbench() {}

  /** Starts it. */
  public static void main(String[] arguments) {
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    PrintWriter errors = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    int code = run(out, errors, arguments);
    out.flush();
    errors.flush();
    System.exit(code);
  }

  static int run(PrintWriter out, PrintWriter errors, String... arguments) {
    CommandLine line = new CommandLine(new Workbench());
    line.setOut(out);
    line.setErr(errors);
    line.setUsageHelpAutoWidth(true);
    for (CommandLine command : line.getSubcommands().values()) {
      command.getCommandSpec().mixinStandardHelpOptions(true);
    }
    line.getCommandSpec().mixinStandardHelpOptions(true);
    line.setExecutionExceptionHandler((problem, command, result) -> explain(problem, errors));
    if (List.of(arguments).isEmpty()) {
      line.usage(out);
      return WELL;
    }
    return line.execute(arguments);
  }

  private static int explain(Exception problem, PrintWriter errors) {
    if (problem instanceof FileRefused refused) {
      refused.diagnostics().forEach(found -> errors.println(found + System.lineSeparator()));
      errors.println(refused.diagnostics().size() + " to put right");
      return REFUSED;
    } else if (problem instanceof UncheckedIOException unreadable) {
      errors.println(unreadable.getMessage());
      return REFUSED;
    }
    errors.println(
        problem instanceof GradusException ? problem.getMessage() : "failed: " + problem);
    return FOUND;
  }
}
