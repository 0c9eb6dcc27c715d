package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.cases.CaseReport;
import org.gradus.cases.Cases;
import org.gradus.history.Json;
import org.gradus.library.Library;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Runs cases. */
@Command(
    name = "cases",
    description = "Runs files of cases; without files, all *.cases.yaml of the folder.")
final class CasesCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(paramLabel = "FILE", arity = "0..*", description = "Files of cases.")
  private List<Path> files = new ArrayList<>();

  @Option(names = "--json", description = "Write the results as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    Library library = context.library();
    List<Path> all = files.isEmpty() ? found() : files;
    if (all.isEmpty()) {
      context.complain("no cases found; name files, or a --folder with *.cases.yaml");
      return Workbench.FOUND;
    }
    List<Map<String, Object>> results = new ArrayList<>();
    int failures = 0;
    for (Path file : all) {
      Cases cases = Cases.read(CommandContext.read(file));
      CaseReport report = cases.run(library);
      failures += report.failures().size();
      results.add(map(file, cases, report));
      if (!json) {
        report.failures().forEach(failure -> context.line("case " + failure));
        context.line(
            file.getFileName()
                + ": "
                + cases.cases().size()
                + " cases, "
                + report.failures().size()
                + (report.failures().size() == 1 ? " answer differs" : " answers differ"));
        context.line(report.coverage().toString());
      }
    }
    if (json) {
      context.out().println(Json.write(results));
    }
    return failures == 0 ? Workbench.WELL : Workbench.FOUND;
  }

  private List<Path> found() {
    if (context.folder().isEmpty()) {
      return List.of();
    }
    return CommandContext.yaml(context.folder().get()).stream()
        .filter(CommandContext::isCases)
        .toList();
  }

  private static Map<String, Object> map(Path file, Cases cases, CaseReport report) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("file", file.getFileName().toString());
    map.put("protocol", cases.protocol());
    map.put("cases", cases.cases().size());
    map.put("failures", report.failures().stream().map(Object::toString).toList());
    map.put("neverFired", report.coverage().neverFired());
    map.put("neverReached", report.coverage().neverReached());
    return map;
  }
}
