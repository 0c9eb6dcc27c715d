package org.gradus.examples.workbench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.gradus.history.TestRecord;
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

  @Override
  public Integer call() {
    try {
      TestRecord record = TestRecord.parse(file.getFileName().toString(), Files.readString(file));
      Report report = Report.of(record, shelf.library());
      if (html == null) {
        shelf.out().println(report.text());
      } else {
        Files.writeString(html, report.html());
        shelf.out().println("report: " + html);
      }
      return Workbench.WELL;
    } catch (IOException e) {
      throw new UncheckedIOException("cannot read or write " + e.getMessage(), e);
    }
  }
}
