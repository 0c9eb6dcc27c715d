package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Runs the events of a record again with the files of today. */
@Command(
    name = "rerun",
    description = {
      "Runs a recorded test again with the files of today, or those of --folder,",
      "and shows which answers would be others. What was followed stands."
    })
final class RerunCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(paramLabel = "RECORD", description = "The file of the record.")
  private Path file = Path.of("");

  @Option(names = "--json", description = "Write the differences as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    TestRecord record = CommandContext.record(file);
    Library library = context.library();
    List<TestRecord.Difference> differences = record.rerun(library);
    Map<String, String> passedOver = record.settingsPassedOver(library);
    if (json) {
      Map<String, Object> map = new LinkedHashMap<>();
      map.put("protocol", record.title().protocol());
      map.put("recorded_with", record.title().version());
      map.put("rerun_with", library.protocol(record.title().protocol()).heading().version());
      map.put("settings_passed_over", passedOver);
      map.put("differences", differences.stream().map(PlayCommand::map).toList());
      context.out().println(Json.write(map));
    } else {
      passedOver.forEach(
          (name, value) ->
              context.line("the protocol has no setting " + name + " any more; was " + value));
      differences.forEach(one -> context.line(PlayCommand.line(one)));
      context.line(
          differences.isEmpty()
              ? "every answer is as recorded"
              : differences.size() == 1
                  ? "1 answer would be another"
                  : differences.size() + " answers would be others");
    }
    return differences.isEmpty() ? Workbench.WELL : Workbench.FOUND;
  }
}
