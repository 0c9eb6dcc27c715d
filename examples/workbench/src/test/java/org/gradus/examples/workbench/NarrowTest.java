package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.OWN;
import static org.gradus.examples.workbench.Bench.at;
import static org.gradus.examples.workbench.Bench.live;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.gradus.examples.workbench.Bench.Ran;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** In a narrow terminal no line is wider than it, and nothing is missing. */
class NarrowTest {

  private static final int[] WIDTHS = {40, 80};

  @TempDir private static Path folder = Path.of("");
  private static Path record = Path.of("");

  @BeforeAll
  static void something() throws Exception {
    record = folder.resolve("record.jsonl");
    String typed = "nothing unusual\nresting hr 66, 118/76\n\n2:00 hr 107\n3:00 hr 107\n\n";
    live(typed + "5:00 hr 125\n6:00 hr 125\n\nchest_pain\n\nquit\n", record);
    // Files in which something is found, refused, and answered otherwise.
    String walk = Files.readString(Path.of(OWN, "canal-walk.yaml"));
    put("found", "canal-walk.yaml", walk.replace("20 years to 60", "12 years to 60"));
    put(
        "refused",
        "canal-walk.yaml",
        walk.replace("value: 10 bpm, range", "value: 10 mmHg, range"));
    String cases = Files.readString(Path.of(OWN, "canal-walk.cases.yaml"));
    put("differs", "canal-walk.yaml", walk);
    put("differs", "canal-walk.cases.yaml", cases.replace("heart_rate: 143", "heart_rate: 141"));
  }

  private static void put(String in, String name, String text) throws Exception {
    Files.createDirectories(folder.resolve(in));
    Files.writeString(folder.resolve(in).resolve(name), text);
  }

  private static List<List<String>> commands() {
    String found = folder.resolve("found").toString();
    String refused = folder.resolve("refused").toString();
    String differs = folder.resolve("differs").toString();
    List<List<String>> all = new ArrayList<>();
    all.add(List.of("list"));
    all.add(List.of("list", "walk"));
    all.add(List.of("show", "canal-walk", "--folder", OWN));
    all.add(List.of("check", "--folder", OWN));
    all.add(List.of("check", "--folder", refused));
    all.add(List.of("review", "canal-walk", "--folder", OWN));
    all.add(List.of("review", "canal-walk", "--folder", found));
    all.add(List.of("edges", "canal-walk", "--folder", OWN));
    all.add(List.of("cases", "--folder", differs));
    all.add(
        List.of("trial", "canal-walk", "--folder", OWN, "--people", "60", "--false-holds", "15"));
    all.add(List.of("play", record.toString(), "--folder", OWN));
    all.add(List.of("play", record.toString(), "--folder", OWN, "--explain", "6"));
    all.add(List.of("report", record.toString(), "--folder", OWN, "--bands", "bands-2011"));
    all.add(List.of("show", "no-such-walk"));
    all.add(List.of("edges", "canal-walk", "--folder", OWN, "--rule", "no-such-rule"));
    all.add(List.of("run", "canal-walk", "--age", "40", "--sex", "male", "--mass", "64kg"));
    return all;
  }

  private static Ran ran(int columns, List<String> command) {
    return at(columns, command.toArray(String[]::new));
  }

  private static void fits(Ran ran, int columns, List<String> command) {
    assertThat(ran.text().lines())
        .as("%s at %s", command, columns)
        .isNotEmpty()
        .allSatisfy(line -> assertThat(line.length()).isLessThanOrEqualTo(columns));
  }

  @Test
  void noLineIsWiderThanTheTerminal() {
    for (List<String> command : commands()) {
      for (int columns : WIDTHS) {
        fits(ran(columns, command), columns, command);
      }
    }
  }

  @Test
  void helpFitsToo() {
    for (String command :
        "list show check review edges cases trial run resume play report help".split(" ", -1)) {
      for (int columns : WIDTHS) {
        List<String> asked = List.of("help", command);
        fits(ran(columns, asked), columns, asked);
      }
    }
    fits(ran(40, List.of()), 40, List.of());
    assertThat(at(40, "help", "trial").text())
        .contains("  --people N\n      Number of people (default: 1000).\n");
  }

  // Bars are as long as there is room, the table of a trial has a form of its own, and lines of
  // files are folded with their margin.
  @Test
  void nothingIsMissing() {
    for (List<String> command : commands()) {
      if (!command.get(0).equals("trial") && !command.toString().contains("refused")) {
        Ran whole = ran(0, command);
        for (int columns : WIDTHS) {
          Ran narrow = ran(columns, command);
          assertThat(narrow.code()).isEqualTo(whole.code());
          assertThat(bare(narrow.text()))
              .as("%s at %s", command, columns)
              .isEqualTo(bare(whole.text()));
        }
      }
    }
  }

  private static String bare(String text) {
    return text.replaceAll("[\\s#]", "");
  }

  // 36 columns less the margin of 7 leave 29 for the line: up to the blank behind 10, then up to
  // the
  // one behind 20 bpm. "mmHg, range: " is 13 characters, and so far in begins the underline.
  @Test
  void anUnderlineStaysBelowWhatItIsAbout() {
    List<String> excerpt =
        List.of(
            "  30 |   below_ceiling: { value: 10 mmHg, range: 5 bpm to 20 bpm }",
            "     |                                           ^^^^^ pressure");
    assertThat(Folded.excerpts(excerpt, 36))
        .containsExactly(
            "  30 |   below_ceiling: { value: 10",
            "     | mmHg, range: 5 bpm to 20 bpm",
            "     |              ^^^^^ pressure",
            "     | }");
  }

  @Test
  void whatIsAboutToBeFoldedInsideAnUnderlineIsNotLost() {
    List<String> excerpt = List.of("  7 | " + "x".repeat(30), "    | " + "^".repeat(30));
    assertThat(Folded.excerpts(excerpt, 26))
        .containsExactly(
            "  7 | " + "x".repeat(20),
            "    | " + "^".repeat(20),
            "    | " + "x".repeat(10),
            "    | " + "^".repeat(10));
  }
}
