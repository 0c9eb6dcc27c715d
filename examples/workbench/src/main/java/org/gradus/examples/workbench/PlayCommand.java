package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Decision;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.gradus.session.Times;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Replays a record. */
@Command(
    name = "play",
    description = "Replays the record of a test, verifies it, and explains a decision in it.")
final class PlayCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(paramLabel = "RECORD", description = "The file of the record.")
  private Path file = Path.of("");

  @Option(
      names = "--explain",
      paramLabel = "N",
      description = "Explain the answer to the event of this number.")
  private @Nullable Integer explain;

  @Option(names = "--json", description = "Write events, answers and differences as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    context.refuseUnless(
        !json || explain == null,
        "--json and --explain: give one of them; an explanation is text for people");
    TestRecord record = CommandContext.record(file);
    Library library = context.library();
    if (explain != null) {
      return explain(record, explain, library);
    }
    List<TestRecord.Difference> differences = record.verify(library);
    if (json) {
      context.out().println(Json.write(map(record, differences)));
    } else {
      context.line(record.title().protocol() + " " + record.title().version());
      record.entries().forEach(entry -> context.line(line(entry)));
      differences.forEach(one -> context.line(line(one)));
      if (!record.isOver()) {
        context.line(
            "the record ends before the test was over: the test was cut off or goes on, or lines"
                + " are missing at the end");
      }
      context.line(
          differences.isEmpty()
              ? "record verified, unchanged"
              : "record not verified: "
                  + (differences.size() == 1
                      ? "1 answer differs"
                      : differences.size() + " answers differ"));
    }
    return differences.isEmpty() ? Workbench.WELL : Workbench.FOUND;
  }

  private static String line(TestRecord.Entry entry) {
    String rule = entry.rule().isEmpty() ? "" : " (" + entry.rule() + ")";
    return entry.number()
        + "  "
        + Times.clock(entry.event().at())
        + "  "
        + Told.line(entry.event())
        + "  ->  "
        + entry.answer()
        + rule;
  }

  static String line(TestRecord.Difference one) {
    return "event " + one.number() + " differs: recorded " + one.recorded() + ", now " + one.now();
  }

  private static Map<String, Object> map(
      TestRecord record, List<TestRecord.Difference> differences) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("protocol", record.title().protocol());
    map.put("version", record.title().version());
    map.put("events", record.entries().stream().map(PlayCommand::map).toList());
    map.put("over", record.isOver());
    map.put("differences", differences.stream().map(PlayCommand::map).toList());
    return map;
  }

  private static Map<String, Object> map(TestRecord.Entry entry) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("number", entry.number());
    map.put("seconds", entry.event().at().toSeconds());
    map.put("told", Told.line(entry.event()));
    map.put("answer", entry.answer());
    map.put("rule", entry.rule());
    return map;
  }

  static Map<String, Object> map(TestRecord.Difference one) {
    Map<String, Object> map = new LinkedHashMap<>();
    map.put("number", one.number());
    map.put("recorded", one.recorded());
    map.put("now", one.now());
    return map;
  }

  private int explain(TestRecord record, int number, Library library) {
    int last = record.entries().size();
    context.refuseUnless(
        number >= 1 && number <= last,
        "--explain "
            + number
            + ": "
            + (last == 0
                ? "the record has no events; play it without"
                : "give the number of an event, from 1 to " + last));
    TestRecord part = new TestRecord(record.title(), record.entries().subList(0, number));
    Session session = part.resume(library, Ledger.NONE);
    Decision decision = session.decide(record.entries().get(number - 1).event().at());
    Explanation.lines(decision).forEach(context::line);
    return Workbench.WELL;
  }
}
