package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.BEGUN;
import static org.gradus.examples.workbench.Bench.bundled;
import static org.gradus.examples.workbench.Bench.run;

import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.gradus.bundled.Bundled;
import org.gradus.diagnostic.Printable;
import org.gradus.history.TestRecord;
import org.gradus.library.Library;
import org.gradus.report.Report;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A file whose title, reasons, questions, cues and sources hold escape sequences, C1 controls and
 * characters that turn the direction of text: none of it reaches an output.
 */
class HostileTextTest {

  @TempDir private Path folder = Path.of("");
  private String files = "";

  @BeforeEach
  void put() throws Exception {
    Path evil = Files.createDirectories(folder.resolve("evil"));
    try (InputStream file = HostileTextTest.class.getResourceAsStream("hostile/evil-walk.yaml")) {
      Files.copy(Objects.requireNonNull(file), evil.resolve("evil-walk.yaml"));
    }
    files = evil.toString();
  }

  private static void plain(String what, String text) {
    assertThat(text.codePoints().filter(point -> !Printable.isPlain(point) && point != '\n'))
        .as(what)
        .isEmpty();
  }

  private static void answersPlainly(String... command) {
    String text = run("", command).text();
    assertThat(text).as(String.join(" ", command)).isNotBlank();
    plain(String.join(" ", command), text);
  }

  private Path record() {
    Path record = folder.resolve("record.jsonl");
    String typed =
        BEGUN
            + "2:00 hr 100\n2:40 what\n3:00 hr 101\nwhy\n\n3:30 evilsign\nwhy\n\n?\nevents\nquit\n";
    String text =
        bundled("evil-walk", typed, "--folder", files, "--record", record.toString()).text();
    assertThat(text).contains("2:30 say: U \uFFFD[31mRED", "STOP: D \uFFFD[31mRED", "Q \uFFFD[31m");
    plain("run", text);
    return record;
  }

  @Test
  void everyCommandShowsItAsText() {
    String record = record().toString();
    answersPlainly("list", "--folder", files);
    answersPlainly("show", "evil-walk", "--folder", files);
    answersPlainly("show", "evil-walk", "--folder", files, "--json");
    answersPlainly("check", "--folder", files);
    answersPlainly("review", "evil-walk", "--folder", files);
    answersPlainly("edges", "evil-walk", "--folder", files);
    answersPlainly("play", record, "--folder", files);
    for (int event = 1; event <= 7; event++) {
      answersPlainly("play", record, "--folder", files, "--explain", Integer.toString(event));
    }
    answersPlainly("report", record, "--folder", files);
    answersPlainly("report", record, "--folder", files, "--json");
    answersPlainly("list", "\u001B[31m\u202Eabc\u009B");
    answersPlainly("show", "\u001B[31m\u202Eabc\u009B");
    answersPlainly("dance\u001B[31m\u202E\u009B");
  }

  @Test
  void aDiagnosticShowsItsLineAsText() throws Exception {
    Path file = Path.of(files, "evil-walk.yaml");
    Files.writeString(
        file,
        Files.readString(file).replace("rule: advance", "rule: advance # \u202E\u200B\u009B"));
    Files.writeString(file, Files.readString(file).replace("<= calm_band", "<= calm_bnd"));
    answersPlainly("check", "--folder", files);
    Files.writeString(file, Files.readString(file).replace("step_1,", "\"st\\e[31m\\u202E\","));
    answersPlainly("check", "--folder", files);
  }

  @Test
  void reportsShowItAsText() throws Exception {
    Library library = Bundled.library().and(Path.of(files));
    TestRecord record = TestRecord.parse("record", Files.readString(record()));
    Report report = Report.of(record, library).identity("I \u001B[31mRED\u202E\u009B31m\u2066x");
    assertThat(report.text()).contains("I \uFFFD[31mRED");
    plain("text", report.text());
    assertThat(report.html()).contains("I \uFFFD[31mRED");
    plain("html", report.html());
  }

  // The door itself: its own line ends pass, and what the screen writes for the terminal goes
  // around it.
  @Test
  void theDoorLetsLinesThrough() {
    StringWriter text = new StringWriter();
    PrintWriter out = PlainWriter.before(new PrintWriter(text, true));
    out.println("one \u001B[2J");
    out.printf("%s%n", "two \r three");
    out.write("four".toCharArray(), 0, 4);
    out.write('\u009B');
    out.append("\u202E!").println();
    out.flush();
    assertThat(text.toString().lines().toList())
        .isEqualTo(List.of("one \uFFFD[2J", "two \uFFFD three", "four\uFFFD\uFFFD!"));
  }

  // A name of the protocol's cue or reason could pass for an answer if it began a line of its own.
  @Test
  void aTextWithLineBreaksStaysOneLineOfALiveTest() {
    StringWriter text = new StringWriter();
    PrintWriter terminal = new PrintWriter(text, true);
    new Screen(PlainWriter.before(terminal), terminal, false, 0).print("say: a\n3:00 STOP\u2028b");
    assertThat(text.toString().lines()).containsExactly("say: a 3:00 STOP b");
  }
}
