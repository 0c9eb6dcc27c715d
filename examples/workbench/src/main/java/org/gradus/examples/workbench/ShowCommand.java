package org.gradus.examples.workbench;

import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.protocol.Protocol;
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

  private static final int NARROWEST = 40;

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "ID", description = "The protocol.")
  private String id = "";

  @Option(
      names = "--width",
      paramLabel = "N",
      defaultValue = "${env:COLUMNS:-80}",
      description = "Columns of the terminal (default: COLUMNS, else 80).")
  private int width = 80;

  @Option(names = "--json", description = "Write the whole protocol as JSON; times are in seconds.")
  private boolean json;

  @Override
  public Integer call() {
    Protocol protocol = shelf.protocol(id);
    if (json) {
      shelf.out().println(Json.write(new ProtocolMap(protocol).map()));
    } else {
      ProtocolText.lines(protocol, Math.max(NARROWEST, width)).forEach(shelf.out()::println);
    }
    return Workbench.WELL;
  }
}
