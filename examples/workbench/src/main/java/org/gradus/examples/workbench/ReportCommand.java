package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
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
@Command(name = "report", description = "Writes the report of a recorded test, or of several.")
final class ReportCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(
      paramLabel = "RECORD",
      arity = "1..*",
      description = "The file of the record; several give one report after the other.")
  private List<Path> files = List.of();

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

  @Option(names = "--date", paramLabel = "WORDS", description = "When the test was, as printed.")
  private @Nullable String date;

  @Option(names = "--place", paramLabel = "WORDS", description = "Where it was, as printed.")
  private @Nullable String place;

  @Option(names = "--tester", paramLabel = "WORDS", description = "Who signs the report.")
  private @Nullable String tester;

  @Option(
      names = "--earlier",
      paramLabel = "RECORD",
      description =
          "An earlier test of the same person, to show what has changed; the name of its file is"
              + " printed beside it. Give the earliest first.")
  private List<Path> earlier = List.of();

  @Option(
      names = "--cleared-after-stop",
      description =
          "The person has been cleared for exercise since the stop that ended this test; without it"
              + " a stopped test has no training plan.")
  private boolean cleared;

  @Override
  public Integer call() {
    context.refuseUnless(
        !cleared || !bands.isEmpty(),
        "--cleared-after-stop: it is about the training plan; give --bands too");
    context.refuseUnless(
        !json || html == null, "--json and --html: give one of them; each is a report of its own");
    boolean printed = date != null || place != null || tester != null || !earlier.isEmpty();
    context.refuseUnless(
        !json || !printed,
        "--json: it holds what was recorded; leave out --date, --place, --tester and --earlier");
    context.refuseUnless(
        files.size() == 1 || earlier.isEmpty(),
        "--earlier: it belongs to one test; give one RECORD");
    if (html != null) {
      for (Path input : earlier) {
        OutputFile.refuseInput(html, context.inputs(input));
      }
      for (Path file : files) {
        OutputFile.refuseInput(html, context.inputs(file));
      }
    }
    List<TestRecord> records = files.stream().map(CommandContext::record).toList();
    Library library = context.library();
    Optional<IntensityBands> by =
        bands.isEmpty() ? Optional.empty() : Optional.of(library.bands(bands));
    if (json) {
      List<Map<String, Object>> maps =
          records.stream()
              .map(record -> new ReportMap(record, library, by, cleared).map())
              .toList();
      context.out().println(Json.write(maps.size() == 1 ? maps.get(0) : maps));
      return Workbench.WELL;
    }
    List<Report> reports = records.stream().map(record -> report(record, library, by)).toList();
    if (html == null) {
      for (Report report : reports) {
        context.line(context.columns() > 0 ? report.text(context.columns()) : report.text());
      }
      return Workbench.WELL;
    }
    OutputFile.write(html, reports.size() == 1 ? reports.get(0).html() : Report.html(reports));
    context.line("report: " + html);
    return Workbench.WELL;
  }

  private Report report(TestRecord record, Library library, Optional<IntensityBands> by) {
    Report plain = printed(Report.of(record, library), library).norms(library.norms());
    Report planned = by.map(plain::bands).orElse(plain);
    return cleared ? planned.clearedAfterStop() : planned;
  }

  private Report printed(Report recorded, Library library) {
    Report report = recorded;
    report = date == null ? report : report.date(date);
    report = place == null ? report : report.place(place);
    report = tester == null ? report : report.tester(tester);
    return earlier.isEmpty()
        ? report
        : report.earlier(earlier.stream().map(before -> before(before, library)).toList());
  }

  private static Report before(Path record, Library library) {
    Path name = record.getFileName();
    String words = name == null ? record.toString() : name.toString().replaceAll("\\.jsonl$", "");
    return Report.of(CommandContext.record(record), library).date(words);
  }
}
