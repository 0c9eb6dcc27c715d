package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.OWN;
import static org.gradus.examples.workbench.Bench.live;
import static org.gradus.examples.workbench.Bench.run;

import java.nio.file.Path;
import java.util.stream.Stream;
import org.gradus.examples.workbench.Bench.Ran;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** An option that would come to nothing is refused, with what would do. */
class OptionsTest {

  @TempDir private Path folder = Path.of("");

  private static void refused(String why, String... arguments) throws Exception {
    Ran ran = run("", arguments);
    assertThat(ran.text()).contains(why);
    assertThat(ran.code()).isEqualTo(2);
  }

  private String record() throws Exception {
    Path record = folder.resolve("record.jsonl");
    live("nothing unusual\nquit\n", record);
    return record.toString();
  }

  @Test
  void anExplanationIsForPeopleAndOfAnEvent() throws Exception {
    String record = record();
    refused(
        "--json and --explain: give one of them",
        "play",
        record,
        "--folder",
        OWN,
        "--explain",
        "1",
        "--json");
    for (String number : new String[] {"0", "-1", "2"}) {
      refused(
          "--explain " + number + ": give the number of an event, from 1 to 1",
          "play",
          record,
          "--folder",
          OWN,
          "--explain",
          number);
    }
  }

  @Test
  void aReportIsOfOneKind() throws Exception {
    refused(
        "--json and --html: give one of them",
        "report",
        record(),
        "--folder",
        OWN,
        "--json",
        "--html",
        folder.resolve("r.html").toString());
  }

  @Test
  void jsonHasNoWidth() throws Exception {
    refused(
        "--json and --width: give one of them",
        "show",
        "canal-walk",
        "--folder",
        OWN,
        "--json",
        "--width",
        "60");
    refused(
        "--width 5: give a number from 20", "show", "canal-walk", "--folder", OWN, "--width", "5");
  }

  @Test
  void aFolderThatIsNotThereIsNotPassedOver() throws Exception {
    refused(
        "--folder nowhere: there is no such folder",
        "check",
        OWN + "/canal-walk.yaml",
        "--folder",
        "nowhere");
    refused("--folder nowhere: there is no such folder", "list", "--folder", "nowhere");
  }

  @Test
  void aMassAndAHeightAreNumbers() throws Exception {
    String[] person = {"run", "canal-walk", "--folder", OWN, "--age", "40", "--sex", "male"};
    refused("--mass NaN: give kilograms", with(person, "--mass", "NaN"));
    refused("--mass 0.0: give kilograms", with(person, "--mass", "0"));
    refused(
        "--height Infinity: give centimetres",
        with(person, "--mass", "70", "--height", "Infinity"));
  }

  private static String[] with(String[] words, String... more) {
    return Stream.concat(Stream.of(words), Stream.of(more)).toArray(String[]::new);
  }

  @Test
  void aHeightIsAboveNothing() throws Exception {
    refused(
        "--height -170.0: give centimetres",
        "run",
        "canal-walk",
        "--folder",
        OWN,
        "--age",
        "40",
        "--sex",
        "male",
        "--mass",
        "70",
        "--height",
        "-170");
  }

  @Test
  void whatIsEmptyIsNotPassedOver() throws Exception {
    refused("--rule is empty; leave it out", "edges", "canal-walk", "--folder", OWN, "--rule", "");
    refused("--bands is empty; leave it out", "report", "record.jsonl", "--bands=");
    refused("argument 2 is empty; leave it out", "list", " ");
  }

  @Test
  void nobodyIsHeldFalselyByTheExactRate() throws Exception {
    refused(
        "--false-holds [0]: give some of [6, 10,",
        "trial",
        "canal-walk",
        "--folder",
        OWN,
        "--people",
        "10",
        "--false-holds",
        "0");
  }

  @Test
  void aFolderIsNoFileOfCases() throws Exception {
    Ran ran = run("", "cases", OWN);
    assertThat(ran.code()).isEqualTo(3);
    assertThat(ran.text()).contains("it is a folder; name a file, or use --folder " + OWN);
  }

  // Nothing is published yet that a version could tell apart.
  @ParameterizedTest
  @ValueSource(strings = {"--version", "-V"})
  void thereIsNoVersion(String option) throws Exception {
    refused("Unknown option: '" + option + "'", option);
    refused("Unknown option: '" + option + "'", "list", option);
    assertThat(run("", "--help").text()).contains("--help").doesNotContain("ersion");
    assertThat(run("", "trial", "--help").text()).contains("-h, --help").doesNotContain("ersion");
  }
}
