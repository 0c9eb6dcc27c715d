package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.Callable;
import org.gradus.capacity.Capacity;
import org.gradus.capacity.Change;
import org.gradus.capacity.Result;
import org.gradus.history.Json;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.protocol.Protocol;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.gradus.unit.Quantity;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Compares two tests of one person. */
@Command(
    name = "compare",
    description = {
      "Compares two recorded tests of one person: what has changed, and whether it is more than",
      "repeated tests of an unchanged person differ by."
    })
final class CompareCommand implements Callable<Integer> {

  @Mixin private CommandContext context = new CommandContext();

  @Parameters(index = "0", paramLabel = "EARLIER", description = "The record of the earlier test.")
  private Path earlier = Path.of("");

  @Parameters(index = "1", paramLabel = "LATER", description = "The record of the later test.")
  private Path later = Path.of("");

  @Option(names = "--json", description = "Write the comparison as JSON.")
  private boolean json;

  @Override
  public Integer call() {
    Library library = context.library();
    Session before = session(earlier, library);
    Session after = session(later, library);
    Capacity then = Capacity.of(before.outcome());
    Capacity now = Capacity.of(after.outcome());
    Protocol protocol = after.protocol();
    Change change = Change.between(then, now, protocol.assessment().repeats());
    Map<String, Object> results = new LinkedHashMap<>();
    for (Result result : now.results()) {
      then.result(result.id())
          .filter(Result::isAvailable)
          .filter(any -> result.isAvailable())
          .ifPresent(
              first -> results.put(result.id(), difference(result, first, protocol, before)));
    }
    if (json) {
      context.out().println(Json.write(map(change, results)));
      return Workbench.WELL;
    }
    if (!now.estimates().isEmpty()) {
      context.line("aerobic capacity: " + words(then) + ", then " + words(now));
      context.line("  " + change);
    }
    results.forEach((id, words) -> context.line(id.replace('_', ' ') + ": " + words));
    if (now.estimates().isEmpty() && results.isEmpty()) {
      context.line("the two tests have no result in common");
    }
    return Workbench.WELL;
  }

  private static Session session(Path file, Library library) {
    TestRecord record = CommandContext.record(file);
    return record.resume(library, Ledger.NONE);
  }

  private static String words(Capacity capacity) {
    return capacity.headline().map(best -> best.vo2max().rounded(1).toString()).orElse("none");
  }

  // Nothing says by how much such a result differs from one time to the next.
  private static Object difference(Result now, Result then, Protocol protocol, Session before) {
    if (!before.protocol().id().equals(protocol.id())) {
      return "the two tests were done by different protocols";
    }
    Quantity first = then.value().orElseThrow();
    Quantity last = now.value().orElseThrow();
    Quantity by = Quantity.ofBase(last.base() - first.base(), last.unit());
    return first.rounded(1)
        + ", then "
        + last.rounded(1)
        + " ("
        + (by.amount() < 0 ? "" : "+")
        + by.rounded(1)
        + "; no published figure says by how much repeated tests differ)";
  }

  private static Map<String, Object> map(Change change, Map<String, Object> results) {
    Map<String, Object> map = new LinkedHashMap<>();
    if (change instanceof Change.Judged judged) {
      map.put("estimate", judged.estimate());
      map.put("difference", judged.difference().amount());
      map.put("unit", judged.difference().unit().symbol());
      map.put("repeated_tests_differ_by", judged.least().amount());
      map.put("more_than_that", judged.isReal());
    } else {
      map.put("reason", change.toString());
    }
    map.put("results", results);
    return map;
  }
}
