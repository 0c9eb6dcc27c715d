package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.gradus.examples.workbench.Bench.OWN;
import static org.gradus.examples.workbench.Bench.live;
import static org.gradus.examples.workbench.Bench.run;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.gradus.examples.workbench.Bench.Ran;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** Reports of recorded tests, to people and to programs. */
class ReportsTest {

  @TempDir private Path folder = Path.of("");

  private static Map<?, ?> read(String json) {
    return (Map<?, ?>) new Load(LoadSettings.builder().build()).loadFromString(json);
  }

  // What lies under these names, or in a list under this place, from the outside in.
  private static Object at(Object whole, Object... way) {
    Object here = whole;
    for (Object step : way) {
      here =
          step instanceof Integer place
              ? ((List<?>) here).get(place)
              : ((Map<?, ?>) here).get(step);
      assertThat(here).as("%s in %s", step, List.of(way)).isNotNull();
    }
    return here;
  }

  private static double amount(Object whole, Object... way) {
    return ((Number) at(at(whole, way), "amount")).doubleValue();
  }

  // 25 beats in 15 s are 100 bpm, counted at the end of the first stage; nothing ended the test but
  // the stop, so there are no identity and no result; nor was a plan asked for.
  static void stopped(String json) throws Exception {
    List<String> told =
        Files.readString(Path.of("README.md"))
            .lines()
            .filter(line -> line.matches("\\| `[a-z]+` \\|.*"))
            .map(line -> line.substring(3, line.indexOf('`', 3)))
            .toList();
    List<String> names = new ArrayList<>(told);
    names.removeAll(List.of("identity", "result", "prescription"));
    assertThat(told).hasSize(names.size() + 3);
    assertThat(read(json).keySet().stream().map(Object::toString)).containsExactlyElementsOf(names);
    assertThat(json)
        .contains("\"id\": \"canal-walk\"", "\"stopped\": true", "\"sign\": \"chest_pain\"")
        .contains("\"heart_rate\": {\"amount\": 100.0, \"unit\": \"bpm\"}");
  }

  private Path finished() throws Exception {
    Path record = folder.resolve("finished.jsonl");
    Ran run =
        live(
            """
            nothing unusual
            resting hr 66, 118/76

            2:00 hr 107
            3:00 hr 107

            5:00 hr 125
            6:00 hr 125

            8:00 hr 143
            9:00 hr 143

            14:00 hr 90
            14:10 118/76
            15:00 hr 86

            """,
            record);
    assertThat(run.text()).contains("done: FINISH", "OVER, recovered");
    return record;
  }

  private static String report(Path record, String... options) throws Exception {
    List<String> all = new ArrayList<>(List.of("report", record.toString(), "--folder", OWN));
    all.addAll(List.of(options));
    Ran ran = run("", all.toArray(String[]::new));
    assertThat(ran.code()).isZero();
    return ran.text().replaceAll("\\s+", " ");
  }

  // By hand: 80 m/min take 0.1 x 80 + 3.5 = 11.5 mL/kg/min on the level and 1.8 x 80 x 0.025 = 3.6
  // more for each step: 107, 125 and 143 bpm at 11.5, 15.1 and 18.7, which is 0.2 mL/kg/min for a
  // beat. At 220 - 40 = 180 bpm: 18.7 + 37 x 0.2 = 26.1, 7.46 MET. Among women of 40 to 49 years it
  // lies between 22.1 and 26.7, percentiles 25 and 50.
  @Test
  void aFinishedTestSaysTheSameToProgramsAndToPeople() throws Exception {
    Path record = finished();
    Object json = read(report(record, "--json"));
    assertThat(at(json, "result")).isEqualTo("line");
    assertThat(at(json, "test", "ending")).isEqualTo("recovered");
    assertThat(at(json, "test", "stopped")).isEqualTo(false);
    assertThat(at(json, "estimates", 0, "id")).isEqualTo("line");
    assertThat(amount(json, "estimates", 0, "vo2max")).isCloseTo(26.1, within(1e-9));
    assertThat(at(json, "standings", 0, "table")).isEqualTo("treadmill_2015_women");
    assertThat(at(json, "standings", 0, "percentile", "reached")).isEqualTo(25);
    assertThat(at(json, "standings", 0, "percentile", "notReached")).isEqualTo(50);
    String text = report(record);
    assertThat(text)
        .contains("26.1 mL/kg/min (7.5 MET), 95 % interval ")
        .contains("place: between percentiles 25 and 50;")
        .doesNotContain("Training plan");
    double low = amount(json, "estimates", 0, "interval", "low");
    double high = amount(json, "estimates", 0, "interval", "high");
    assertThat(text)
        .contains(String.format(Locale.ROOT, "95 %% interval %.1f to %.1f mL/kg/min", low, high));
  }

  // By hand, the moderate band, 40 to 59 % of the reserve. Heart rate 66 + 0.40 x 114 = 111.6 and
  // 66
  // + 0.59 x 114 = 133.26 bpm; uptake 3.5 + 0.40 x 22.6 = 12.54 and 3.5 + 0.59 x 22.6 = 16.834
  // mL/kg/min, 3.58 and 4.81 MET; 12.54 x 64 / 1000 x 5 = 4.0128 and 5.38688 kcal/min. On the level
  // (12.54 - 3.5) / 0.1 = 90.4 m/min, and no more than 100 m/min is walked; 60 to 89 % take 3.5 +
  // 0.60 x 22.6 = 17.06 mL/kg/min, more than the 13.5 of 100 m/min.
  @Test
  void aPrescriptionIsGivenWhereBandsAreAskedFor() throws Exception {
    Path record = finished();
    Object json = read(report(record, "--json", "--bands", "bands-2011"));
    Object plan = at(json, "prescription");
    assertThat(at(plan, "by")).isEqualTo("bands-2011");
    Object moderate = at(plan, "bands", 2);
    assertThat(at(moderate, "id")).isEqualTo("moderate");
    ends(moderate, "reserve", 40, 59);
    ends(moderate, "heartRate", 111.6, 133.26);
    assertThat(at(moderate, "heartRateBy")).isEqualTo("heart_rate_reserve");
    ends(moderate, "uptake", 12.54, 16.834);
    ends(moderate, "mets", 12.54 / 3.5, 16.834 / 3.5);
    ends(moderate, "energy", 4.0128, 5.38688);
    ends(moderate, "rating", 12, 13);
    assertThat(amount(moderate, "weekly")).isEqualTo(150);
    Object walk = at(moderate, "loads", 0);
    assertThat(at(walk, "exercise")).isEqualTo("level_walk");
    assertThat(at(walk, "of")).isEqualTo("speed");
    ends(walk, "load", 90.4, 100);
    assertThat(at(walk, "remark").toString()).startsWith("only a part of the band");
    Object vigorous = at(plan, "bands", 3, "loads", 0);
    assertThat(at(vigorous, "whyNot").toString()).startsWith("not reachable");
    assertThat(((Map<?, ?>) vigorous).containsKey("load")).isFalse();
    // The easiest band has no lower end.
    assertThat(((Map<?, ?>) at(plan, "bands", 0, "heartRate")).containsKey("from")).isFalse();
    assertThat(report(record, "--bands", "bands-2011"))
        .contains(
            "- moderate; share of the reserve: 40 to 59 %; heart rate: 112 to 133 bpm; oxygen uptake:"
                + " 12.5 to 16.8 mL/kg/min; MET: 3.6 to 4.8 MET; energy: 4 to 5.4 kcal/min; rating: 12"
                + " to 13; per week, if all training is in this band: 150 min",
            "moderate: 90 to 100 m/min (only a part of the band",
            at(plan, "remarks", 0).toString());
    Path html = folder.resolve("finished.html");
    report(record, "--html", html.toString(), "--bands", "bands-2011");
    assertThat(Files.readString(html)).contains("Training plan", "112 to 133\u00a0bpm");
  }

  private static void ends(Object map, String name, double from, double to) {
    assertThat(amount(map, name, "from")).as(name).isCloseTo(from, within(1e-9));
    assertThat(amount(map, name, "to")).as(name).isCloseTo(to, within(1e-9));
  }

  @Test
  void bandsThatThereAreNotAreNamedWithTheNearest() throws Exception {
    Ran ran = run("", "report", finished().toString(), "--folder", OWN, "--bands", "bands-2010");
    assertThat(ran.code()).isEqualTo(2);
    assertThat(ran.text()).contains("did you mean bands-2011?");
  }

  // Chest pain in the second stage: a result of the first, and no plan until somebody says that the
  // person may exercise.
  @Test
  void afterAStopThereIsNoPrescriptionUntilThePersonIsCleared() throws Exception {
    Path record = folder.resolve("stopped.jsonl");
    live(
        """
        nothing unusual
        resting hr 66, 118/76

        2:00 hr 107
        3:00 hr 107

        4:00 chest_pain

        """,
        record);
    Object json = read(report(record, "--json", "--bands", "bands-2011"));
    assertThat(at(json, "test", "clearedAfterStop")).isEqualTo(false);
    assertThat(at(json, "prescription", "withheld").toString()).startsWith("No training plan");
    assertThat((List<?>) at(json, "prescription", "bands")).isEmpty();
    assertThat(report(record, "--bands", "bands-2011"))
        .contains("No training plan: the test was ended by a stop")
        .doesNotContain("share of the reserve");
    Object cleared =
        read(report(record, "--json", "--bands", "bands-2011", "--cleared-after-stop"));
    assertThat(at(cleared, "test", "clearedAfterStop")).isEqualTo(true);
    assertThat((List<?>) at(cleared, "prescription", "bands")).isNotEmpty();
    Ran alone = run("", "report", record.toString(), "--folder", OWN, "--cleared-after-stop");
    assertThat(alone.code()).isEqualTo(2);
    assertThat(alone.text()).contains("give --bands too");
  }

  @Test
  void whoWhenAndWhereArePrintedAndEarlierTestsStandBesideThisOne() throws Exception {
    Path record = finished();
    Path before = Files.copy(record, folder.resolve("last-march.jsonl"));
    String text =
        report(
            record,
            "--date",
            "3 May",
            "--place",
            "Room 3",
            "--tester",
            "A. B.",
            "--earlier",
            before.toString());
    assertThat(text)
        .contains("date: 3 May place: Room 3 tester: A. B.", "Signature of A. B.:")
        .contains("last-march; protocol: ", "3 May; protocol: ")
        .contains("changed by +0 mL/kg/min: within the ");
    Ran refused = run("", "report", record.toString(), "--folder", OWN, "--json", "--date", "May");
    assertThat(refused.code()).isEqualTo(2);
    assertThat(refused.text()).contains("leave out --date");
  }
}
