package org.gradus.examples.workbench;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import picocli.CommandLine;
import picocli.CommandLine.Help;
import picocli.CommandLine.IHelpSectionRenderer;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.UsageMessageSpec;

/** Help of commands at a width; where two columns do not fit, what is explained stands above. */
final class NarrowHelp {

  // Below this width the library of the command line refuses to write at all.
  private static final int TWO_COLUMNS = 55;

  private final int columns;

  /**
   * Help.
   *
   * @param columns how wide lines may be; 0 for the usual width
   */
  NarrowHelp(int columns) {
    this.columns = columns;
  }

  /** Has a command and those below it write their help at this width. */
  void fit(CommandLine line) {
    if (columns > 0) {
      line.setUsageHelpWidth(Math.max(TWO_COLUMNS, columns));
    }
    if (columns > 0 && columns < TWO_COLUMNS) {
      narrow(line);
      line.getSubcommands().values().forEach(this::narrow);
    }
  }

  private void narrow(CommandLine line) {
    Map<String, IHelpSectionRenderer> sections = line.getHelpSectionMap();
    sections.put(
        UsageMessageSpec.SECTION_KEY_HEADER,
        help -> text(List.of(help.commandSpec().usageMessage().header())));
    sections.put(UsageMessageSpec.SECTION_KEY_SYNOPSIS_HEADING, help -> "");
    sections.put(
        UsageMessageSpec.SECTION_KEY_SYNOPSIS,
        help ->
            text(
                List.of(
                    "Usage: "
                        + help.synopsis(0)
                            .strip()
                            .replaceAll("(?<=,)\\s+|\\s+(?=,)", "")
                            .replaceAll("\\s+", " "))));
    sections.put(
        UsageMessageSpec.SECTION_KEY_DESCRIPTION,
        help -> text(List.of(help.commandSpec().usageMessage().description())));
    sections.put(
        UsageMessageSpec.SECTION_KEY_PARAMETER_LIST,
        help -> explained(help.commandSpec().positionalParameters()));
    sections.put(
        UsageMessageSpec.SECTION_KEY_OPTION_LIST, help -> explained(help.commandSpec().options()));
    sections.put(UsageMessageSpec.SECTION_KEY_COMMAND_LIST, help -> commands(help));
    sections.put(
        UsageMessageSpec.SECTION_KEY_FOOTER,
        help -> text(List.of(help.commandSpec().usageMessage().footer())));
    line.setHelpSectionMap(sections);
  }

  private String commands(Help help) {
    List<String> lines = new ArrayList<>();
    for (Map.Entry<String, Help> command : help.subcommands().entrySet()) {
      lines.add("  " + command.getKey());
      lines.add("      " + command.getValue().commandSpec().usageMessage().description()[0]);
    }
    return text(lines);
  }

  private String explained(List<? extends ArgSpec> arguments) {
    List<String> lines = new ArrayList<>();
    for (ArgSpec argument : arguments) {
      String label = argument.paramLabel();
      lines.add(
          "  "
              + (argument instanceof OptionSpec option
                  ? String.join(", ", option.names())
                      + (option.arity().max() > 0 ? " " + label : "")
                  : label));
      lines.add("      " + String.join(" ", argument.description()));
    }
    return text(lines);
  }

  private String text(List<String> lines) {
    return lines.stream()
        .map(line -> line.replace("%n", ""))
        .flatMap(line -> Wrap.lines(line, columns).stream())
        .map(line -> line + System.lineSeparator())
        .collect(Collectors.joining());
  }
}
