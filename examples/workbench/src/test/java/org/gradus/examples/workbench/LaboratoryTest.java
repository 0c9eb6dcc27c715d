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

/** What a laboratory does with the tests it has recorded. */
class LaboratoryTest {

  private static final String WALK =
      BEGUN + "2:00 hr %d\n3:00 hr %d\n\n5:00 hr %d\n6:00 hr %d\nfollow\n";

  @TempDir private Path folder;

  /** Two stages of the standard walk; the later of two rates each. */
  private Path record(String name, int first, int second, String... options) {
    Path file = folder.resolve(name);
    String[] all = new String[options.length + 2];
    all[0] = "--record";
    all[1] = file.toString();
    System.arraycopy(options, 0, all, 2, options.length);
    String typed = WALK.formatted(first - 1, first, second - 1, second);
    bundled("graded-walk-standard", typed, all);
    assertThat(file).exists();
    return file;
  }

  @Test
  void aSettingIsChangedForOneTestAndStandsInItsRecord() throws Exception {
    Path record = record("a.jsonl", 112, 138, "--set", "steady_band=6bpm", "--identity", "P 12");
    assertThat(Files.readString(record)).contains("\"steady_band\": \"6 bpm\"", "P 12");
    assertThat(run("", "report", record.toString()).text()).contains("P 12");
    Ran shown = run("", "show", "graded-walk-standard", "--set", "steady_band=6 bpm");
    assertThat(shown.text()).contains("6 bpm");
    for (String wrong : new String[] {"steady_band=60bpm", "steady_band=six", "stedy_band=6bpm"}) {
      Ran refused = run("", "show", "graded-walk-standard", "--set", wrong);
      assertThat(refused.code()).as(wrong).isNotZero();
      assertThat(refused.text()).as(wrong).contains("G603");
    }
    assertThat(run("", "show", "graded-walk-standard", "--set", "stedy_band=6bpm").text())
        .contains("did you mean steady_band?");
  }

  @Test
  void anIdentityNeedsARecordToStandIn() {
    Ran refused = bundled("graded-walk-standard", "", "--identity", "P 12");
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.text()).contains("give --record FILE too");
  }

  @Test
  void aRecordIsRunAgainWithOtherFiles() throws Exception {
    Path record = record("a.jsonl", 112, 138);
    Ran same = run("", "rerun", record.toString());
    assertThat(same.text()).contains("every answer is as recorded");
    assertThat(same.code()).isZero();
    Path own = Files.createDirectory(folder.resolve("own"));
    String walk =
        org.gradus.bundled.Bundled.files().stream()
            .filter(file -> file.name().endsWith("graded-walk-modified.yaml"))
            .findFirst()
            .orElseThrow()
            .text()
            .replace("id: graded-walk-modified", "id: our-walk");
    Files.writeString(own.resolve("our-walk.yaml"), walk);
    // A file of one's own beside it changes nothing of this record.
    assertThat(run("", "rerun", record.toString(), "--folder", own.toString(), "--json").text())
        .contains("\"differences\": []", "\"recorded_with\"");
  }

  @Test
  void twoTestsAreCompared() {
    Path before = record("before.jsonl", 120, 146);
    Path after = record("after.jsonl", 112, 138);
    Ran compared = run("", "compare", before.toString(), after.toString());
    assertThat(compared.code()).isZero();
    assertThat(compared.text()).contains("aerobic capacity: ", "that repeated tests differ by");
    String json = run("", "compare", before.toString(), after.toString(), "--json").text();
    assertThat(json).contains("\"more_than_that\": false", "\"unit\": \"mL/kg/min\"");
  }

  @Test
  void severalReportsAreOneFile() throws Exception {
    Path first = record("first.jsonl", 120, 146, "--identity", "P 1");
    Path second = record("second.jsonl", 112, 138, "--identity", "P 2");
    Path page = folder.resolve("both.html");
    Ran ran = run("", "report", first.toString(), second.toString(), "--html", page.toString());
    assertThat(ran.code()).isZero();
    String html = Files.readString(page);
    assertThat(html).contains("Exercise tests: 2", "Test 1: ", "Test 2: ", "P 1", "P 2");
    // A title is the name of one section only.
    assertThat(html.split("id=\"test-1-")).hasSizeGreaterThan(3);
    assertThat(html.split("</html>", -1)).hasSize(2);
    assertThat(run("", "report", first.toString(), second.toString(), "--json").text())
        .startsWith("[")
        .contains("P 1", "P 2");
    Ran refused =
        run("", "report", first.toString(), second.toString(), "--earlier", first.toString());
    assertThat(refused.text()).contains("it belongs to one test");
  }

  // No line of Java knows the pool, its loads or its signal.
  @Test
  void aFolderWithItsOwnErgometerLoadsAndSignalIsTriedPlayedAndReported() {
    String own = Bench.OWN;
    assertThat(run("", "review", "pool-steps", "--folder", own).text()).contains("0 findings");
    Ran tried = run("", "trial", "pool-steps", "--folder", own, "--people", "200");
    assertThat(tried.code()).isZero();
    assertThat(tried.text()).contains("result speed_at_rate: in ", "m/s on average");
    Path record = folder.resolve("pool.jsonl");
    Ran swum =
        bundled(
            "pool-steps",
            BEGUN
                + "3:00\n\n3:15 hr 120\n3:40 blood_lactate 1.4\n4:00\n\n7:00\n\n7:15 hr 140\n"
                + "7:40 blood_lactate 3\n8:00\n\n11:00\n\n11:15 hr 160\n12:00\nfollow\n",
            "--folder",
            own,
            "--record",
            record.toString());
    assertThat(swum.text()).contains("wall_1", "0.7 m/s");
    Ran report = run("", "report", record.toString(), "--folder", own);
    assertThat(report.text()).contains("Swimming in steps of speed", "0.65 m/s");
  }
}
