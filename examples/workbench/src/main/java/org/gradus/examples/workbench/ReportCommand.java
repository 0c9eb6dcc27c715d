package org.gradus.examples.workbench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.report.Report;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Writes the report of a recorded test. */
@Command(name = "report", description = "Writes the report of a recorded test.")
final class ReportCommand implements Callable<Integer> {

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "RECORD", description = "The file of the record.")
  private Path file = Path.of("");

  @Option(
      names = "--html",
      paramLabel = "FILE",
      description = "Write it as one HTML file; else it is shown as text.")
  private @Nullable Path html;

  @Option(
      names = "--json",
      description =
          "Write what came out as JSON; times are in seconds, amounts beside their units.")
  private boolean json;

  @Override
  public Integer call() {
    shelf.refuseUnless(
        !json || html == null, "--json and --html: give one of them; each is a report of its own");
    TestRecord record = Shelf.record(file);
    Library library = shelf.library();
    if (json) {
      shelf.out().println(Json.write(new ReportMap(record, library).map()));
      return Workbench.WELL;
    }
    Report report = Report.of(record, library).norms(library.norms());
    if (html == null) {
      shelf.out().println(report.text());
      return Workbench.WELL;
    }
    try {
      Files.writeString(html, report.html());
    } catch (IOException e) {
      throw Shelf.cannot("write", html, e);
    }
    shelf.out().println("report: " + html);
    return Workbench.WELL;
  }
}
