package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.BEGUN;
import static org.gradus.examples.workbench.Bench.bundled;
import static org.gradus.examples.workbench.Bench.run;

import java.nio.file.Files;
import java.nio.file.Path;
import org.gradus.examples.workbench.Bench.Ran;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tests that go out as tables, and come in from paper. */
class TablesTest {

  private static final String PAPER =
      """
      action,at,name,value,unit,reason
      protocol,,graded-walk-standard,,,
      person,,age,40,years,
      person,,sex,male,,
      person,,mass,70,kg,
      person,,cleared,yes,,
      person,,lowers_heart_rate,no,,
      """;

  @TempDir private Path folder;

  private Path record(String name) {
    Path file = folder.resolve(name);
    String typed = BEGUN + "2:00 hr 111\n3:00 hr 112\n\n5:00 hr 137\n6:00 hr 138\nfollow\n";
    bundled("graded-walk-standard", typed, "--record", file.toString());
    return file;
  }

  @Test
  void aRecordGoesOutAsTablesAndComesInAgain() throws Exception {
    Path record = record("a.jsonl");
    Path tables = folder.resolve("tables");
    Ran out = run("", "export", record.toString(), "--csv", tables.toString());
    assertThat(out.text()).contains("4 tables in ");
    assertThat(out.code()).isZero();
    // A row for the heads, one for each stage.
    assertThat(Files.readAllLines(tables.resolve("a-stages.csv"))).hasSize(3);
    assertThat(Files.readString(tables.resolve("a-readings.csv"))).contains("heart_rate", "138");
    assertThat(Files.readString(tables.resolve("a-results.csv"))).contains("mL/kg/min");
    Path again = folder.resolve("again.jsonl");
    Ran in =
        run(
            "",
            "enter",
            tables.resolve("a-test.csv").toString(),
            "--record",
            again.toString(),
            "--identity",
            "P 3");
    assertThat(in.text()).contains("aerobic capacity: ");
    assertThat(Files.readString(again)).contains("P 3");
    assertThat(run("", "play", again.toString()).text()).contains("record verified, unchanged");
    String compared = run("", "compare", record.toString(), again.toString(), "--json").text();
    assertThat(compared).contains("\"difference\": 0");
  }

  @Test
  void everyProblemOfATableIsShownWithItsPlace() throws Exception {
    Path table = folder.resolve("paper.csv");
    Files.writeString(
        table, PAPER + "read,0:00,heart_rat,70,bpm,\nread,0:10,heart_rate,700,bpm,\n");
    Path record = folder.resolve("paper.jsonl");
    Ran refused = run("", "enter", table.toString(), "--record", record.toString());
    assertThat(refused.code()).isEqualTo(3);
    assertThat(refused.text()).contains("line 8", "heart_rat", "line 9");
    assertThat(record).doesNotExist();
  }

  @Test
  void twoRecordsOfOneNameAreNotMixed() throws Exception {
    Path one = record("a.jsonl");
    Path other = Files.createDirectory(folder.resolve("b")).resolve("a.jsonl");
    Files.copy(one, other);
    Ran refused =
        run(
            "",
            "export",
            one.toString(),
            other.toString(),
            "--csv",
            folder.resolve("t").toString());
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.text()).contains("two records have the same name");
  }

  @Test
  void theTableOfThePageCanBeEntered() throws Exception {
    String page = Files.readString(Path.of("README.md"));
    int from = page.indexOf("action,at,");
    Path table = folder.resolve("page.csv");
    Files.writeString(table, page.substring(from, page.indexOf("```", from)));
    Path record = folder.resolve("page.jsonl");
    Ran in = run("", "enter", table.toString(), "--record", record.toString());
    assertThat(in.text()).contains("; the test is not over in it");
    assertThat(in.code()).isZero();
  }
}
