package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.capacity.Capacity;
import org.gradus.exchange.table.ResultTables;
import org.gradus.exchange.table.TestTable;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Writes tables of recorded tests. */
@Command(
    name = "export",
    description = {
      "Writes recorded tests as tables (CSV): NAME-stages.csv, NAME-readings.csv and",
      "NAME-results.csv have a row for each stage, reading and result; NAME-test.csv is the whole",
      "test, which enter reads again. NAME is that of the record."
    })
final class ExportCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(paramLabel = "RECORD", arity = "1..*", description = "The files of the records.")
  private List<Path> files = List.of();

  @Option(
      names = "--csv",
      required = true,
      paramLabel = "DIR",
      description = "The folder to write to; it is made where it is not there.")
  private Path folder = Path.of("");

  @Override
  public Integer call() {
    Library library = context.library();
    Map<Path, String> tables = new LinkedHashMap<>();
    for (Path file : files) {
      Session session = session(CommandContext.record(file), library);
      Capacity capacity = Capacity.of(session.outcome());
      String name = name(file);
      tables.put(folder.resolve(name + "-test.csv"), TestTable.write(session));
      tables.put(
          folder.resolve(name + "-stages.csv"), ResultTables.stages(session.outcome(), capacity));
      tables.put(folder.resolve(name + "-readings.csv"), ResultTables.readings(session));
      tables.put(folder.resolve(name + "-results.csv"), ResultTables.results(capacity));
    }
    context.refuseUnless(
        tables.size() == 4 * files.size(),
        "two records have the same name; export them to different folders");
    OutputFile.folder(folder);
    List<Path> inputs = new ArrayList<>(files);
    tables.forEach(
        (file, text) -> {
          OutputFile.refuseInput(file, inputs);
          OutputFile.write(file, text);
        });
    context.line(tables.size() + " tables in " + folder);
    return Workbench.WELL;
  }

  private static Session session(TestRecord record, Library library) {
    return record.resume(library, Ledger.NONE);
  }

  private static String name(Path file) {
    Path name = file.getFileName();
    return (name == null ? file.toString() : name.toString()).replaceAll("\\.jsonl$", "");
  }
}
