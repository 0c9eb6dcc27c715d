package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The workbench as its users see it. */
class WorkbenchTest {

  private static final String OWN = "../own-protocol";

  @TempDir private Path folder = Path.of("");

  /** What a run came to: exit code, and what was written. */
  private record Ran(int code, String text) {}

  private static Ran run(String typed, String... arguments) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-cp", System.getProperty("java.class.path")));
    command.add(Workbench.class.getName());
    command.addAll(List.of(arguments));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    try (OutputStream in = process.getOutputStream()) {
      in.write(typed.getBytes(StandardCharsets.UTF_8));
    }
    String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ran(process.waitFor(), text);
  }

  @Test
  void theFolderOfOnesOwnIsWellAndItsCasesHold() throws Exception {
    Ran cases = run("", "cases", "--folder", OWN);
    assertThat(cases.text()).contains("5 cases, 0 answers differ");
    assertThat(cases.code()).isZero();
    assertThat(run("", "review", "canal-walk", "--folder", OWN).code()).isZero();
  }

  @Test
  void twoMistakesAreReportedInOneRunWithPlaceAndRemedy() throws Exception {
    String walk = Files.readString(Path.of(OWN, "canal-walk.yaml"));
    Files.writeString(
        folder.resolve("canal-walk.yaml"),
        walk.replace("<= calm_band", "<= calm_bnd")
            .replace("value: 10 bpm, range: 5 bpm", "value: 10 mmHg, range: 5 bpm"));
    Ran check = run("", "check", "--folder", folder.toString());
    assertThat(check.code()).isEqualTo(3);
    assertThat(check.text()).contains("calm_bnd", "calm_band", "canal-walk.yaml:", "to put right");
    Ran json = run("", "check", "--json", "--folder", folder.toString());
    assertThat(json.text()).startsWith("[{\"code\":\"G");
  }

  @Test
  void aTestIsRunRecordedPlayedAndExplained() throws Exception {
    Path record = folder.resolve("record.jsonl");
    String typed =
        """
        0:00 nothing unusual
        0:00 resting heart_rate 66, resting systolic 118, resting diastolic 76
        follow
        2:00 pulse 24 15
        3:00 pulse 25 15
        follow
        3:30 heart_rate 700
        4:00 chest_pain
        follow
        quit
        """;
    Ran run =
        run(
            typed,
            "run",
            "canal-walk",
            "--folder",
            OWN,
            "--age",
            "40",
            "--sex",
            "female",
            "--mass",
            "64",
            "--cleared",
            "--record",
            record.toString());
    assertThat(run.text()).contains("ADVANCE to step_2", "not taken: G502", "STOP");
    assertThat(run.code()).isZero();
    Ran play = run("", "play", record.toString(), "--folder", OWN);
    assertThat(play.text()).contains("the record is as it was made");
    assertThat(run("", "report", record.toString(), "--folder", OWN).text()).contains("step_1");
    Ran why = run("", "play", record.toString(), "--folder", OWN, "--explain", "5");
    assertThat(why.text()).contains("rule: advance", "source:");
  }

  @Test
  void aNarrowTerminalGetsShortLinesAndAProgramJson() throws Exception {
    Ran wide = run("", "show", "canal-walk", "--folder", OWN, "--width", "100");
    assertThat(wide.text()).contains("step_5  3:00  4.8 km/h, 10 %", "#### ");
    Ran narrow = run("", "show", "canal-walk", "--folder", OWN, "--width", "40");
    assertThat(narrow.text().lines().filter(line -> line.contains("##")))
        .isNotEmpty()
        .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(40));
    assertThat(run("", "list", "--json", "nomogram").text()).contains("cycle-single-load-6min");
  }

  @Test
  void aTrialIsTheSameOnOneCore() throws Exception {
    String[] all = {"trial", "canal-walk", "--folder", OWN, "--people", "300", "--json"};
    List<String> one = new ArrayList<>(List.of(all));
    one.add("--one-core");
    assertThat(run("", one.toArray(String[]::new))).isEqualTo(run("", all));
  }

  @Test
  void whatIsNotUnderstoodHasItsOwnCode() throws Exception {
    assertThat(run("", "dance").code()).isEqualTo(2);
    Ran unknown = run("", "show", "canal-wlk", "--folder", OWN);
    assertThat(unknown.code()).isEqualTo(1);
    assertThat(unknown.text()).contains("canal-walk");
  }

  @Test
  void edgesAreATable() throws Exception {
    assertThat(run("", "edges", "canal-walk", "--folder", OWN, "--rule", "high-and-calm").text())
        .contains("below", "at", "above", "high-and-calm");
  }
}
