package org.gradus.examples.workbench;

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
      description = "Write the report to this HTML file; without it the report is shown as text.")
  private @Nullable Path html;

  @Option(
      names = "--json",
      description = "Write the results as JSON; times are in seconds, amounts beside their units.")
  private boolean json;

  @Option(
      names = "--bands",
      paramLabel = "ID",
      description = "Add a training plan by these intensity bands: bands-2011.")
  private String bands = "";

  @Option(
      names = "--cleared-after-stop",
      description =
          "The person has been cleared for exercise since the stop that ended this test; without it"
              + " a stopped test has no training plan.")
  private boolean cleared;

  @Override
  public Integer call() {
    shelf.refuseUnless(
        !cleared || !bands.isEmpty(),
        "--cleared-after-stop: it is about the training plan; give --bands too");
    shelf.refuseUnless(
        !json || html == null, "--json and --html: give one of them; each is a report of its own");
    if (html != null) {
      OutputFile.refuseInput(html, shelf.inputs(file));
    }
    TestRecord record = Shelf.record(file);
    Library library = shelf.library();
    Optional<IntensityBands> by =
        bands.isEmpty() ? Optional.empty() : Optional.of(library.bands(bands));
    if (json) {
      shelf.out().println(Json.write(new ReportMap(record, library, by, cleared).map()));
      return Workbench.WELL;
    }
    Report plain = Report.of(record, library).norms(library.norms());
    Report planned = by.map(plain::bands).orElse(plain);
    Report report = cleared ? planned.clearedAfterStop() : planned;
    if (html == null) {
      shelf.line(shelf.columns() > 0 ? report.text(shelf.columns()) : report.text());
      return Workbench.WELL;
    }
    OutputFile.write(html, report.html());
    shelf.line("report: " + html);
    return Workbench.WELL;
  }
}
