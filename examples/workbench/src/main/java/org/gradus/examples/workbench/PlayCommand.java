package org.gradus.examples.workbench;

import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.Callable;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.session.Decision;
import org.gradus.session.Ledger;
import org.gradus.session.Session;
import org.gradus.session.Times;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Plays a record. */
@Command(
    name = "play",
    description = "Plays the record of a test, verifies it, and explains a decision in it.")
final class PlayCommand implements Callable<Integer> {

  @Mixin private Shelf shelf = new Shelf();

  @Parameters(paramLabel = "RECORD", description = "The file of the record.")
  private Path file = Path.of("");

  @Option(
      names = "--explain",
      paramLabel = "N",
      description = "Explain the answer to the event of this number.")
  private int explain;

  @Override
  public Integer call() {
    TestRecord record = Shelf.record(file);
    Library library = shelf.library();
    if (explain > 0) {
      return explain(record, library);
    }
    shelf.out().println(record.title().protocol() + " " + record.title().version());
    for (TestRecord.Entry entry : record.entries()) {
      String rule = entry.rule().isEmpty() ? "" : " (" + entry.rule() + ")";
      shelf
          .out()
          .println(
              entry.number()
                  + "  "
                  + Times.clock(entry.event().at())
                  + "  "
                  + Told.line(entry.event())
                  + "  ->  "
                  + entry.answer()
                  + rule);
    }
    List<TestRecord.Difference> differences = record.verify(library);
    differences.forEach(
        difference ->
            shelf
                .out()
                .println(
                    "differs at "
                        + difference.number()
                        + ": "
                        + difference.recorded()
                        + ", now "
                        + difference.now()));
    shelf.out().println(differences.isEmpty() ? "the record is as it was made" : "it differs");
    return differences.isEmpty() ? Workbench.WELL : Workbench.FOUND;
  }

  private int explain(TestRecord record, Library library) {
    if (explain > record.entries().size()) {
      shelf.errors().println("the record has " + record.entries().size() + " events");
      return Workbench.FOUND;
    }
    TestRecord part = new TestRecord(record.title(), record.entries().subList(0, explain));
    Session session = part.resume(library, Ledger.NONE);
    Decision decision = session.decide(record.entries().get(explain - 1).event().at());
    Explanation.lines(decision).forEach(shelf.out()::println);
    return Workbench.WELL;
  }
}
