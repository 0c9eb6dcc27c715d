package org.gradus.examples.workbench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.knowledge.IntensityBands;
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

  @Option(
      names = "--bands",
      paramLabel = "ID",
      description = "With a training plan by these bands of intensity: bands-2011.")
  private String bands = "";

  @Override
  public Integer call() {
    shelf.refuseUnless(
        !json || html == null, "--json and --html: give one of them; each is a report of its own");
    TestRecord record = Shelf.record(file);
    Library library = shelf.library();
    Optional<IntensityBands> by =
        bands.isEmpty() ? Optional.empty() : Optional.of(library.bands(bands));
    if (json) {
      shelf.out().println(Json.write(new ReportMap(record, library, by).map()));
      return Workbench.WELL;
    }
    Report plain = Report.of(record, library).norms(library.norms());
    Report report = by.map(plain::bands).orElse(plain);
    if (html == null) {
      shelf.line(shelf.columns() > 0 ? report.text(shelf.columns()) : report.text());
      return Workbench.WELL;
    }
    try {
      Files.writeString(html, report.html());
    } catch (IOException e) {
      throw Shelf.cannot("write", html, e);
    }
    shelf.line("report: " + html);
    return Workbench.WELL;
  }
}
