package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.OWN;
import static org.gradus.examples.workbench.Bench.live;
import static org.gradus.examples.workbench.Bench.run;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.gradus.bundled.Bundled;
import org.gradus.examples.workbench.Bench.Ran;
import org.gradus.history.Json;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The workbench as its users see it. */
class WorkbenchTest {

  @TempDir private Path folder = Path.of("");

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
    assertThat(check.text()).contains("calm_bnd", "calm_band", "canal-walk.yaml:", "3 errors");
    Files.writeString(
        folder.resolve("canal-walk.yaml"), walk.replace("speed: 4.8 km/h", "speed: 48 km/h"));
    assertThat(run("", "check", "--folder", folder.toString()).text())
        .contains("error[G412] canal-walk.yaml:", "the speed of step_1 could be 48 km/h");
    Ran json = run("", "check", "--json", "--folder", folder.toString());
    assertThat(json.text()).startsWith("[{\"code\": \"G");
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
        3:40 load speed 48 km/h
        4:00 chest_pain
        follow
        quit
        """;
    Ran run = live(typed, record);
    assertThat(run.text())
        .contains("ADVANCE to step_2", "not recorded: G502", "STOP")
        .contains(
            "not recorded: G502: speed of 48 km/h is outside what is possible, 0 km/h to 25 km/h");
    assertThat(run.code()).isZero();
    Ran play = run("", "play", record.toString(), "--folder", OWN);
    assertThat(play.text()).contains("record verified, unchanged");
    assertThat(run("", "play", record.toString(), "--folder", OWN, "--json").text())
        .contains("\"answer\": \"ADVANCE to step_2", "\"differences\": []");
    assertThat(run("", "report", record.toString(), "--folder", OWN).text()).contains("step_1");
    ReportsTest.stopped(run("", "report", record.toString(), "--folder", OWN, "--json").text());
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
    assertThat(narrow.text().lines())
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
  void aTrialTellsHowManySteadyPeopleACountHolds() throws Exception {
    String[] all = {
      "trial", "canal-walk", "--folder", OWN, "--people", "300", "--false-holds", "10,15"
    };
    String text = run("", all).text();
    assertThat(text).containsPattern("counted for 10 s: [\\d.]+ % of \\d+ steady people held");
    assertThat(text).contains("counted for 15 s: ");
    List<String> json = new ArrayList<>(List.of(all));
    json.add("--json");
    assertThat(run("", json.toArray(String[]::new)).text())
        .contains("\"false_holds\"", "\"counting\": \"counted for 10 s\"");
    Ran odd = run("", "trial", "canal-walk", "--folder", OWN, "--false-holds", "11");
    assertThat(odd.code()).isEqualTo(2);
    assertThat(odd.text()).contains("--false-holds [11]: give some of");
  }

  @Test
  void whatIsNotUnderstoodHasItsOwnCode() throws Exception {
    assertThat(run("", "dance").code()).isEqualTo(2);
    Ran unknown = run("", "show", "canal-wlk", "--folder", OWN);
    assertThat(unknown.code()).isEqualTo(2);
    assertThat(unknown.text()).contains("did you mean canal-walk?");
    assertThat(run("", "show", "canal", "--folder", OWN).text())
        .contains("did you mean canal-walk?");
    assertThat(run("", "show", "canal-walk").text()).contains("--folder DIR");
    Ran mass = run("", "run", "canal-walk", "--age", "40", "--sex", "FEMALE", "--mass", "64kg");
    assertThat(mass.code()).isEqualTo(2);
    assertThat(mass.text()).contains("'64kg' is not a number", "see: workbench run --help");
  }

  @Test
  void whatCannotBeReadSaysWhy() throws Exception {
    Ran missing = run("", "play", folder.resolve("none.jsonl").toString());
    assertThat(missing.code()).isEqualTo(3);
    assertThat(missing.text()).contains("there is no such file");
    Ran noRecord = run("", "report", Path.of(OWN, "canal-walk.yaml").toString());
    assertThat(noRecord.code()).isEqualTo(3);
    assertThat(noRecord.text()).startsWith("canal-walk.yaml is not the record of a test");
    Ran resumed = run("", "resume", folder.resolve("none.jsonl").toString());
    assertThat(resumed.code()).isEqualTo(3);
    assertThat(resumed.text()).contains("there is no such file");
  }

  @Test
  void aTestThatWasCutOffIsTakenUpAgain() throws Exception {
    Path record = folder.resolve("record.jsonl");
    Ran begun = live("nothing unusual\nresting hr 66, 118/76\n\n2:00 hr 94\n2:30 hr 940\n", record);
    assertThat(begun.text()).contains("READY", "CONTINUE until", "not recorded: G502");
    // What exists is not written over.
    Ran again = live("quit\n", record);
    assertThat(again.code()).isEqualTo(3);
    assertThat(again.text()).contains("there is such a file already", "workbench resume " + record);
    Ran resumed = run("3:00 hr 96\n\nquit\n", "resume", record.toString(), "--folder", OWN);
    assertThat(resumed.text()).contains("resumed at 2:00", "done: ADVANCE to step_2");
    assertThat(run("", "play", record.toString(), "--folder", OWN).text())
        .contains(
            "resting heart_rate 66 bpm",
            "heart_rate 94 bpm",
            "heart_rate 96 bpm",
            "record verified, unchanged");
  }

  @Test
  void aRecordThatCannotBeWrittenIsToldBeforeTheTest() throws Exception {
    Ran refused = live("nothing unusual\n", folder.resolve("nowhere/record.jsonl"));
    assertThat(refused.code()).isEqualTo(3);
    assertThat(refused.text()).contains("G613", "nowhere").doesNotContain("MEASURE");
  }

  @Test
  void whatIsTypedWronglyIsRefusedWithTheRightWay() throws Exception {
    Ran run = live("hr 66\nresting hr\nresting hr x\n3:00 bq 3\nquit\n", folder.resolve("r.jsonl"));
    assertThat(run.text())
        .contains(
            "resting hr 66, or upright hr 66",
            "heart_rate needs its value: heart_rate ...",
            "not a value: x; write a number and its unit",
            "not understood: bq 3");
  }

  @Test
  void edgesAreATable() throws Exception {
    assertThat(run("", "edges", "canal-walk", "--folder", OWN, "--rule", "high-and-calm").text())
        .contains("below", "at", "above", "high-and-calm");
  }

  @Test
  void aProtocolIsShownWholeToPeopleAndToPrograms() throws Exception {
    String text = run("", "show", "canal-walk", "--folder", OWN, "--width", "200").text();
    assertThat(text)
        .contains(
            "heart_rate  each 1:00, counted over 15 s",
            "rpe  0:15 before the end",
            "estimates\n  line  extrapolate(uptake, heart_rate, max_heart_rate)  from calm stages",
            "calm is abs(change(heart_rate, 1 min)) <= calm_band [",
            "recovery, at most ",
            "unwell_today  Fever",
            "possible loads\n  speed 0 km/h to 25 km/h",
            " Invented for this example; no publication.");
    String json = run("", "show", "canal-walk", "--folder", OWN, "--json").text();
    assertThat(json)
        .contains(
            "{\"name\": \"calm_band\", \"value\": \"6 bpm\", \"range\": \"4 bpm to 8 bpm\", \"source\": "
                + "{\"key\": \"own\", \"text\": \"Invented for this example; no publication.\"}}",
            "\"id\": \"wait\", \"rule\": \"hold 1 min at most 2 times when not calm\"",
            "\"uptake\": {\"amount\": 11.5, \"unit\": \"mL/kg/min\"}",
            "\"inputs\": [{\"name\": \"unwell_today\"",
            "\"loadRanges\": [{\"name\": \"speed\", \"range\": \"0 km/h to 25 km/h\", \"source\": ",
            "\"recovery\": {\"stages\": [{",
            "\"vo2max\": \"extrapolate(uptake, heart_rate, max_heart_rate)\"");
    for (String id : Bundled.library().protocols()) {
      ProtocolText.lines(Bundled.library().protocol(id), 80);
      Json.write(new ProtocolMap(Bundled.library().protocol(id)).map());
    }
  }

  @Test
  void aFolderIsCheckedWithItsCases() throws Exception {
    Ran well = run("", "check", OWN);
    assertThat(well.text())
        .contains(Bench.withBundled(2) + " protocols can be used, 2 files of cases can be played");
    Path cases = folder.resolve("own.cases.yaml");
    Files.writeString(
        cases,
        Files.readString(Path.of(OWN, "canal-walk.cases.yaml")).replace("events:", "event:"));
    Ran wrong = run("", "check", cases.toString(), "--folder", OWN);
    assertThat(wrong.code()).isEqualTo(3);
    assertThat(wrong.text()).contains("own.cases.yaml:", "events");
    Ran none = run("", "check", folder.resolve("none.yaml").toString());
    assertThat(none.text()).contains("there is no such file");
  }

  @Test
  void whatATrialIsAskedForMustBePossible() throws Exception {
    Ran nobody = run("", "trial", "canal-walk", "--folder", OWN, "--people", "0");
    assertThat(nobody.code()).isEqualTo(2);
    assertThat(nobody.text()).contains("--people 0: give a number from 1 to 1000000");
    Ran negative = run("", "trial", "canal-walk", "--folder", OWN, "--count", "-3");
    assertThat(negative.code()).isEqualTo(2);
    assertThat(negative.text()).contains("--count -3: give one of [0, 6, 10");
    assertThat(run("", "edges", "canal-walk", "--folder", OWN, "--rule", "wiat").text())
        .contains("did you mean wait?");
  }

  @Test
  void titlesComeBeforeWhatOnlySourcesMention() throws Exception {
    List<String> lines = run("", "list", "walk").text().lines().toList();
    int others = lines.indexOf("found in their sources only:");
    assertThat(others).isPositive();
    assertThat(lines.subList(0, others))
        .allSatisfy(line -> assertThat(line.toLowerCase(Locale.ROOT)).contains("walk"));
    assertThat(lines.subList(others, lines.size())).anyMatch(line -> line.startsWith("arm-crank"));
  }

  @Test
  void aFindingIsShownHowToAccept() throws Exception {
    Files.writeString(
        folder.resolve("canal-walk.yaml"),
        Files.readString(Path.of(OWN, "canal-walk.yaml"))
            .replace("age: 20 years to 60 years", "age: 12 years to 60 years"));
    Ran review = run("", "review", "canal-walk", "--folder", folder.toString());
    assertThat(review.code()).isEqualTo(1);
    assertThat(review.text())
        .contains("  - finding: replaced-part\n    of: for\n    reason: ...", " | for:");
  }

  @Test
  void aTestIsBrokenOffWithAReasonAndPlayedInWords() throws Exception {
    Path record = folder.resolve("broken.jsonl");
    Ran run =
        live(
            """
            nothing unusual
            resting hr 66, 118/76

            1:30 leg_pain 2
            abandon
            1:40 done
            2:00 abandon: the belt slips
            """,
            record);
    assertThat(run.text()).contains("say why", "only a stage that lasts until it is done", "OVER");
    assertThat(run("", "play", record.toString(), "--folder", OWN).text())
        .contains("reported leg_pain 2", "broken off: the belt slips");
  }
}
