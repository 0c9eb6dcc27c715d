package org.gradus.examples.workbench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.gradus.examples.workbench.Bench.OWN;
import static org.gradus.examples.workbench.Bench.live;
import static org.gradus.examples.workbench.Bench.run;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.gradus.examples.workbench.Bench.Ran;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Files that must not be written over, and files that cannot be read. */
class FilesTest {

  @TempDir private Path folder = Path.of("");

  private Path record() {
    Path record = folder.resolve("record.jsonl");
    live("nothing unusual\nresting hr 66, 118/76\n\n2:00 hr 107\nchest_pain\n\nquit\n", record);
    return record;
  }

  private static Ran report(Path record, Path html) {
    return run("", "report", record.toString(), "--folder", OWN, "--html", html.toString());
  }

  private static void refused(Path record, Path html) throws Exception {
    String before = Files.readString(record);
    Ran ran = report(record, html);
    assertThat(ran.code()).isEqualTo(3);
    assertThat(ran.text()).contains("cannot write " + html + ": it is the same file as " + record);
    assertThat(Files.readString(record)).isEqualTo(before);
  }

  @Test
  void theOnlyRecordIsNotWrittenOver() throws Exception {
    Path record = record();
    refused(record, record);
    refused(record, folder.resolve("./record.jsonl"));
    refused(record, Files.createSymbolicLink(folder.resolve("soft.html"), record));
    refused(record, Files.createLink(folder.resolve("hard.html"), record));
  }

  @Test
  void noFileOfTheFolderIsWrittenOver() throws Exception {
    Path own = Files.createDirectories(folder.resolve("own"));
    Path walk = Files.copy(Path.of(OWN, "canal-walk.yaml"), own.resolve("canal-walk.yaml"));
    Ran ran =
        run(
            "",
            "report",
            record().toString(),
            "--folder",
            own.toString(),
            "--html",
            walk.toString());
    assertThat(ran.code()).isEqualTo(3);
    assertThat(Files.readString(walk)).startsWith("# An invented walk");
  }

  @Test
  void aReportIsWrittenWholeAndThroughALink() throws Exception {
    Path record = record();
    Path html = folder.resolve("report.html");
    Files.writeString(html, "older");
    Path link = Files.createSymbolicLink(folder.resolve("link.html"), html);
    assertThat(report(record, link).code()).isZero();
    assertThat(Files.readString(html)).contains("<!doctype html>", "</html>");
    assertThat(Files.isSymbolicLink(link)).isTrue();
    try (Stream<Path> all = Files.list(folder)) {
      assertThat(all.map(path -> path.getFileName().toString()))
          .containsExactlyInAnyOrder("record.jsonl", "report.html", "link.html");
    }
    Ran nowhere = report(record, folder.resolve("nowhere/report.html"));
    assertThat(nowhere.code()).isEqualTo(3);
    assertThat(nowhere.text()).contains("there is no folder");
    assertThat(report(record, folder).text()).contains("it is a folder");
  }

  @ParameterizedTest
  @Timeout(60)
  @ValueSource(
      strings = {"play", "report", "resume", "check", "cases", "trial canal-walk --population"})
  void aDeviceAPipeAndAFolderAreRefusedAtOnce(String command) throws Exception {
    Path pipe = folder.resolve("pipe.yaml");
    boolean made = new ProcessBuilder("mkfifo", pipe.toString()).start().waitFor() == 0;
    assumeTrue(made && Files.exists(Path.of("/dev/zero")), "no pipes on this system");
    Path dir = Files.createDirectories(folder.resolve("folder.yaml"));
    for (Path file : List.of(pipe, Path.of("/dev/zero"))) {
      String[] all = (command + " " + file + " --folder " + OWN).split(" ", -1);
      Ran ran = run("", all);
      assertThat(ran.text()).as(command).contains(file + ": it is a pipe or a device");
      assertThat(ran.code()).isEqualTo(3);
    }
    if (!command.equals("check")) {
      Ran ran = run("", (command + " " + dir + " --folder " + OWN).split(" ", -1));
      assertThat(ran.text()).as(command).contains("it is a folder");
      assertThat(ran.code()).isEqualTo(3);
    }
  }

  @Test
  @Timeout(60)
  void aPipeInAFolderOfFilesIsPassedOver() throws Exception {
    Path own = Files.createDirectories(folder.resolve("own"));
    Files.copy(Path.of(OWN, "canal-walk.yaml"), own.resolve("canal-walk.yaml"));
    boolean made =
        new ProcessBuilder("mkfifo", own.resolve("pipe.yaml").toString()).start().waitFor() == 0;
    Files.createDirectories(own.resolve("folder.yaml"));
    assumeTrue(made, "no pipes on this system");
    for (String command : List.of("check", "cases", "list")) {
      Ran ran = run("", command, "--folder", own.toString());
      assertThat(ran.text()).as(command).doesNotContain("failed", "Exception");
    }
    assertThat(run("", "check", own.toString()).text())
        .contains(Bench.withBundled(1) + " protocols");
  }

  @Test
  void aRecordOfNoLikelySizeIsRefused() throws Exception {
    Path large = folder.resolve("large.jsonl");
    try (var file = new java.io.RandomAccessFile(large.toFile(), "rw")) {
      file.setLength(64_000_001);
    }
    Ran ran = run("", "play", large.toString());
    assertThat(ran.code()).isEqualTo(3);
    assertThat(ran.text()).contains("larger than any record of a test");
  }

  // Where the input is closed Java opens its own files in its place: nothing of them is typed.
  @Test
  void aClosedInputIsEmpty() throws Exception {
    Path java = Files.createDirectories(folder.resolve("java/lib"));
    Path modules = Files.writeString(java.resolve("modules"), "stop\nchest_pain\n");
    Path opened = Files.createSymbolicLink(folder.resolve("opened"), modules);
    assertThat(Terminal.input(opened, folder.resolve("java")).read()).isEqualTo(-1);
    Path other = Files.createSymbolicLink(folder.resolve("other"), record());
    assertThat(Terminal.input(other, folder.resolve("java"))).isSameAs(System.in);
    assertThat(Terminal.input(folder.resolve("nowhere"), java)).isSameAs(System.in);
  }

  // A NUL can be named in no locale; without UTF-8 this is so for all beyond ASCII.
  @Test
  void aFileThatCannotBeNamedIsSaidToBe() {
    Ran ran = run("", "play", "a\0b");
    assertThat(ran.code()).isEqualTo(2);
    assertThat(ran.text())
        .contains("this locale cannot name such a file; set a UTF-8 locale")
        .doesNotContain("Exception");
  }

  @Test
  void aRecordIsNotAFolder() {
    Ran ran = live("quit\n", folder);
    assertThat(ran.code()).isEqualTo(3);
    assertThat(ran.text()).contains("cannot write " + folder + ": it is a folder");
    assertThat(ran.text()).doesNotContain("resume");
  }

  // Whoever runs these tests may be allowed to read everything.
  @Test
  void whatMustNotBeReadIsSaidToBe() throws Exception {
    Path file = Files.writeString(folder.resolve("mine.jsonl"), "{}");
    assertThat(CommandContext.cannot("read", file, new AccessDeniedException(file.toString())))
        .hasMessage(
            "cannot read "
                + file
                + ": you have no right to; check the rights of the file and its folder");
  }
}
