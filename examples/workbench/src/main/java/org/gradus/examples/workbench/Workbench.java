package org.gradus.examples.workbench;

import java.io.InputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Help;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.OptionSpec;

/**
 * The workbench. Exit codes: 0 all is well, 1 something was found, 2 what was asked for was not
 * understood or does not exist, 3 files were refused, cannot be read or cannot be written.
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
      "workbench COMMAND --help explains a command.",
      "Exit codes: 0 no problem, 1 something found, 2 not understood, 3 files refused."
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
      ResumeCommand.class,
      PlayCommand.class,
      ReportCommand.class,
      RerunCommand.class,
      CompareCommand.class,
      ExportCommand.class,
      EnterCommand.class,
      CommandLine.HelpCommand.class
    })
public final class Workbench {

  static final int WELL = 0;
  static final int FOUND = 1;
  static final int NOT_UNDERSTOOD = 2;
  static final int REFUSED = 3;

  private final InputStream in;
  private final PrintWriter terminal;
  private final PrintWriter errorTerminal;
  private final int columns;

  private Workbench(InputStream in, PrintWriter terminal, PrintWriter errorTerminal, int columns) {
    this.in = in;
    this.terminal = terminal;
    this.errorTerminal = errorTerminal;
    this.columns = columns;
  }

  /** What is typed. */
  InputStream in() {
    return in;
  }

  /** The terminal itself: what is written here it obeys. */
  PrintWriter terminal() {
    return terminal;
  }

  /** The same for what is not as it should be. */
  PrintWriter errorTerminal() {
    return errorTerminal;
  }

  /** How wide the terminal is; 0 where lines are written whole. */
  int columns() {
    return columns;
  }

  /** Starts it. */
  public static void main(String[] arguments) {
    PrintWriter out = new PrintWriter(System.out, true, StandardCharsets.UTF_8);
    PrintWriter errors = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
    int code = run(Terminal.input(), out, errors, Terminal.width(), arguments);
    out.flush();
    errors.flush();
    System.exit(code);
  }

  /**
   * Runs a command.
   *
   * @param in what is typed
   * @param terminal where answers go
   * @param errorTerminal where it goes that something is wrong
   * @param columns how wide lines may be; 0 for any width
   */
  static int run(
      InputStream in,
      PrintWriter terminal,
      PrintWriter errorTerminal,
      int columns,
      String... arguments) {
    PrintWriter out = PlainWriter.before(terminal);
    PrintWriter errors = PlainWriter.before(errorTerminal);
    CommandLine line = new CommandLine(new Workbench(in, terminal, errorTerminal, columns));
    // Colours of help would not pass the door.
    line.setColorScheme(Help.defaultColorScheme(Ansi.OFF));
    line.setOut(out);
    line.setErr(errors);
    offerHelp(line);
    line.getSubcommands().values().forEach(Workbench::offerHelp);
    new NarrowHelp(columns).fit(line);
    line.setCaseInsensitiveEnumValuesAllowed(true);
    Complaints complaints = new Complaints(errors, columns);
    line.setParameterExceptionHandler(complaints);
    line.setExecutionExceptionHandler(complaints);
    if (List.of(arguments).isEmpty()) {
      line.usage(out);
      return WELL;
    }
    Optional<String> empty = empty(List.of(arguments));
    if (empty.isPresent()) {
      complaints.say(empty.get() + " is empty; leave it out, or give a value");
      return NOT_UNDERSTOOD;
    }
    return line.execute(arguments);
  }

  // An empty argument is most often a variable of a script that was never set.
  private static Optional<String> empty(List<String> arguments) {
    for (int i = 0; i < arguments.size(); i++) {
      String argument = arguments.get(i);
      if (argument.matches("--[a-z-]+=\\s*")) {
        return Optional.of(argument.substring(0, argument.indexOf('=')));
      } else if (argument.isBlank()) {
        boolean ofOption = i > 0 && arguments.get(i - 1).startsWith("-");
        return Optional.of(ofOption ? arguments.get(i - 1) : "argument " + (i + 1));
      }
    }
    return Optional.empty();
  }

  private static void offerHelp(CommandLine line) {
    // The command that helps has the option already.
    if (line.getCommandSpec().findOption("--help") == null) {
      line.getCommandSpec()
          .addOption(
              OptionSpec.builder("-h", "--help")
                  .usageHelp(true)
                  .description("Show this help and exit.")
                  .build());
    }
  }
}
