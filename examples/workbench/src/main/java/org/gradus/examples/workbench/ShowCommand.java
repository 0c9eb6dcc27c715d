package org.gradus.examples.workbench;

import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.protocol.Protocol;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows a protocol. */
@Command(
    name = "show",
    description =
        "Shows a whole protocol: stages as a table and as a picture, readings, rules, estimates.")
final class ShowCommand implements Callable<Integer> {

  private static final int NARROWEST = 20;
  private static final int USUAL = 80;

  @Mixin private CommandContext context = new CommandContext();

  @Mixin private Settings settings = new Settings();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(
      names = "--width",
      paramLabel = "N",
      description = "Columns of the terminal (default: COLUMNS, else 80).")
  private @Nullable Integer width;

  @Option(names = "--json", description = "Write the whole protocol as JSON; times are in seconds.")
  private boolean json;

  @Override
  public Integer call() {
    context.refuseUnless(
        !json || width == null, "--json and --width: give one of them; JSON has no width");
    context.refuseUnless(
        width == null || width >= NARROWEST,
        "--width " + width + ": give a number from " + NARROWEST + " on");
    Protocol protocol = settings.in(context.protocol(id));
    if (json) {
      context.out().println(Json.write(new ProtocolMap(protocol).map()));
    } else {
      int columns = width != null ? width : context.columns() > 0 ? context.columns() : USUAL;
      ProtocolText.lines(protocol, Math.max(NARROWEST, columns)).forEach(context.out()::println);
    }
    return Workbench.WELL;
  }
}
